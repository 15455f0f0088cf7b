/** Writes stored readings as text files: CSV or InfluxDB line protocol. */
@NullMarked
package tepidarium.exporting;

import org.jspecify.annotations.NullMarked;
