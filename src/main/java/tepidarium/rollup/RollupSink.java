package tepidarium.rollup;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tepidarium.container.ContainerId;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.WriteResult;

/**
 * Writes readings and invalidates the rollups that they change. Not thread-safe, like the wrapped
 * sink.
 */
public final class RollupSink implements ReadingSink {
  private final HourlyRollups rollups;
  private final ReadingSink sink;

  public RollupSink(HourlyRollups rollups, ReadingSink sink) {
    this.rollups = rollups;
    this.sink = sink;
  }

  /**
   * Refuses readings older than the retention limit, because the readings around them were deleted.
   */
  @Override
  public WriteResult write(List<Reading> batch) {
    Instant earliest = rollups.rawFrom();
    List<RefusedReading> refused = new ArrayList<>();
    List<Reading> accepted = new ArrayList<>(batch.size());
    List<Reading> counted = new ArrayList<>(batch.size());
    for (Reading reading : batch) {
      if (reading.at().isBefore(earliest)) {
        refused.add(
            new RefusedReading(
                reading,
                "older than "
                    + earliest
                    + ": raw readings before then have been deleted (keepRawDays)"));
      } else {
        accepted.add(reading);
        if (!reading.uncertain()) {
          counted.add(reading);
        }
      }
    }
    Map<ContainerId, Span> touched = rollups.beforeWrite(counted);
    try {
      return sink.write(accepted).plus(new WriteResult(0, 0, refused));
    } finally {
      rollups.afterWrite(touched);
    }
  }
}
