/** Makes the threads of executors. */
@NullMarked
package tepidarium.thread;

import org.jspecify.annotations.NullMarked;
