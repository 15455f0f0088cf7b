/** Containers, their warm-dark band, sensor placements, calibrations and openings. */
@NullMarked
package tepidarium.container;

import org.jspecify.annotations.NullMarked;
