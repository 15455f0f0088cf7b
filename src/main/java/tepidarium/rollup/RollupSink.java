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
 * Writes readings so that the rollups stays right. One thread at a time, like the sink behind it.
 */
public final class RollupSink implements ReadingSink {
  private final HourlyRollups rollups;
  private final ReadingSink sink;

  public RollupSink(HourlyRollups rollups, ReadingSink sink) {
    this.rollups = rollups;
    this.sink = sink;
  }

  /** A reading from before raw ones were let go is refused: its neighbours are no more. */
  @Override
  public WriteResult write(List<Reading> batch) {
    Instant earliest = rollups.rawFrom();
    List<RefusedReading> refused = new ArrayList<>();
    List<Reading> taken = new ArrayList<>(batch.size());
    List<Reading> counted = new ArrayList<>(batch.size());
    for (Reading reading : batch) {
      if (reading.at().isBefore(earliest)) {
        refused.add(
            new RefusedReading(
                reading,
                "older than "
                    + earliest
                    + ", before which raw readings have been let go (keepRawDays)"));
      } else {
        taken.add(reading);
        if (!reading.uncertain()) {
          counted.add(reading);
        }
      }
    }
    Map<ContainerId, Span> touched = rollups.aboutToStore(counted);
    try {
      return sink.write(taken).plus(new WriteResult(0, 0, refused));
    } finally {
      rollups.stored(touched);
    }
  }
}
