/** Calibration points of sensors, and the dated corrections and uncertainties from them. */
@NullMarked
package tepidarium.calibration;

import org.jspecify.annotations.NullMarked;
