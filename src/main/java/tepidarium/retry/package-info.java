/** Computes the delays of retries. */
@NullMarked
package tepidarium.retry;

import org.jspecify.annotations.NullMarked;
