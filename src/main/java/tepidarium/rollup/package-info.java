/** The hourly rollups of each container, from which long spans are told without reading raw rows. */
@NullMarked
package tepidarium.rollup;

import org.jspecify.annotations.NullMarked;
