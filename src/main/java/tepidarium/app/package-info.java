/** Main, commands, configuration and wiring. */
@NullMarked
package tepidarium.app;

import org.jspecify.annotations.NullMarked;
