package tepidarium.importing;

import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Unit;
import tepidarium.reading.SensorId;

/**
 * A column that holds values.
 *
 * @param index its index in a row, from 0
 * @param header its header, for messages
 * @param unit quantity and unit of its values
 * @param sensor the sensor that the header names; null if the row or the file names it
 */
record Column(int index, String header, Unit unit, @Nullable SensorId sensor) {}
