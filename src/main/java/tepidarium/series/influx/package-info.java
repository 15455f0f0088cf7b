/** Readings in an InfluxDB server, through its 1.x interface. */
@NullMarked
package tepidarium.series.influx;

import org.jspecify.annotations.NullMarked;
