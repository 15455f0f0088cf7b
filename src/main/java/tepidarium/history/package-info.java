/** Queries the calibrated readings of a container, and downsamples them for charts. */
@NullMarked
package tepidarium.history;

import org.jspecify.annotations.NullMarked;
