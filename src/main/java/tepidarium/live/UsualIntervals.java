package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.function.BiFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.sensor.ReportingRecord;

/**
 * Finds out how long a sensor may be quiet, from the intervals between its stored readings: three
 * usual intervals, as where the lists of sensors say that one is late. It is asked only for sensors
 * that were quiet for a while, and reads their readings once. Used by the watch thread alone.
 */
final class UsualIntervals {
  /** What was learned when the sensor had last been heard at an instant. */
  private record Learned(Instant last, @Nullable Duration interval) {}

  private final BiFunction<SensorId, Span, long[]> instants;
  private final Map<SensorId, Learned> learned = new HashMap<>();

  /**
   * Creates it without any knowledge.
   *
   * @param instants gives the instants of a sensor's readings in a span, ms, ascending
   */
  UsualIntervals(BiFunction<SensorId, Span, long[]> instants) {
    this.instants = instants;
  }

  /**
   * For how long the sensor may be quiet because of its usual interval; zero before that is known.
   *
   * @throws tepidarium.series.StoreException when the store cannot answer now
   */
  Duration quietFor(SensorId sensor, Instant last) {
    Learned known = learned.get(sensor);
    if (known == null || !known.last().equals(last)) {
      known = new Learned(last, learn(sensor, last));
      learned.put(sensor, known);
    }
    Duration interval = known.interval();
    return interval == null ? Duration.ZERO : interval.multipliedBy(ReportingRecord.LATE_INTERVALS);
  }

  /** Reads a week only if a day has fewer intervals than count. */
  private @Nullable Duration learn(SensorId sensor, Instant last) {
    long[] day = instants.apply(sensor, new Span(last.minus(ReportingRecord.DAY), last));
    return ReportingRecord.usualInterval(
        day.length > ReportingRecord.INTERVALS
            ? day
            : instants.apply(sensor, new Span(last.minus(ReportingRecord.WEEK), last)));
  }
}
