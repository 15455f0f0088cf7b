/**
 * Hourly rollups of each container. Long spans are computed from them without reading raw readings.
 */
@NullMarked
package tepidarium.rollup;

import org.jspecify.annotations.NullMarked;
