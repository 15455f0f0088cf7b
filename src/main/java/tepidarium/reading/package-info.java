/** Sensor data: readings, sensor ids, quantities, and series of samples. */
@NullMarked
package tepidarium.reading;

import org.jspecify.annotations.NullMarked;
