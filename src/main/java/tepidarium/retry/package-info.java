/** Computes the delays of retries, and limits attempts to connect to stores. */
@NullMarked
package tepidarium.retry;

import org.jspecify.annotations.NullMarked;
