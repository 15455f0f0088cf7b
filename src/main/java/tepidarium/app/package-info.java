/** Reads the command line and the settings, and creates, connects, starts and stops all parts. */
@NullMarked
package tepidarium.app;

import org.jspecify.annotations.NullMarked;
