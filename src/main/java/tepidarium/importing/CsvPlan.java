package tepidarium.importing;

import java.util.List;
import tepidarium.reading.SensorId;

/**
 * How the rows of a table are read.
 *
 * @param time where a row has its time
 * @param columns the columns with values
 * @param sensorColumn index of the column that names the sensor; -1 if there is none
 * @param sensor sensor of rows and columns that name none
 * @param decimal the decimal separator
 */
record CsvPlan(
    LoggerTable table,
    TimeColumns time,
    List<Column> columns,
    int sensorColumn,
    SensorId sensor,
    char decimal) {
  CsvPlan {
    columns = List.copyOf(columns);
  }
}
