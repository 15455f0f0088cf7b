/** Routes and JSON of sensors, their placement and calibration. */
@NullMarked
package tepidarium.web.sensors;

import org.jspecify.annotations.NullMarked;
