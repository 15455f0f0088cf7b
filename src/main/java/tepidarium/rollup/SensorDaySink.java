package tepidarium.rollup;

import java.util.List;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.ReadingSink;
import tepidarium.series.WriteResult;

/**
 * Writes readings and deletes the stored fault searches that they change. Not thread-safe, like the
 * wrapped sink.
 */
public final class SensorDaySink implements ReadingSink {
  private final SensorDays days;
  private final ReadingSink sink;

  public SensorDaySink(SensorDays days, ReadingSink sink) {
    this.days = days;
    this.sink = sink;
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    List<SensorId> started =
        days.beforeWrite(batch.stream().filter(reading -> !reading.uncertain()).toList());
    try {
      return sink.write(batch);
    } finally {
      days.afterWrite(started);
    }
  }
}
