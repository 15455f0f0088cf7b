/** Stores readings in an InfluxDB server, through its 1.x API. */
@NullMarked
package tepidarium.series.influx;

import org.jspecify.annotations.NullMarked;
