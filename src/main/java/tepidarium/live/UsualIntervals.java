package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Placement;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.sensor.ReportingRecord;
import tepidarium.series.StoreException;

/**
 * Calculates how long a sensor may be quiet: three usual intervals between its readings since it
 * was placed, but at most six hours. The lists of sensors call a sensor late by the same rule. Only
 * sensors that were quiet for a while are looked up, and their stored readings are read once. One
 * round reads for at most 100 ms, and the next one continues. Used by the watch thread only.
 */
final class UsualIntervals {
  /** A sensor that is quiet for longer is silent, however rarely it reports. */
  static final Duration LONGEST = Duration.ofHours(6);

  private static final long MAX_NANOS_PER_ROUND = Duration.ofMillis(100).toNanos();

  /** How far back to read, until there are enough intervals: a sensor may report each second. */
  private static final List<Duration> LOOK_BACK =
      List.of(Duration.ofHours(2), ReportingRecord.DAY, ReportingRecord.WEEK);

  /** What was learned in a placement when the sensor had last been heard at an instant. */
  private record Learned(Instant placed, Instant last, @Nullable Duration interval) {}

  private final BiFunction<SensorId, Span, long[]> instants;
  private final LongSupplier nanos;
  private final Map<SensorId, Learned> learned = new HashMap<>();
  private long spentNanos;
  private boolean storeAnswers = true;

  /**
   * Creates it without any knowledge.
   *
   * @param instants gives the instants of a sensor's readings in a span, ms, ascending
   * @param nanos a clock that is never set, ns
   */
  UsualIntervals(BiFunction<SensorId, Span, long[]> instants, LongSupplier nanos) {
    this.instants = instants;
    this.nanos = nanos;
  }

  /** Begins a round over all sensors. */
  void beginRound() {
    spentNanos = 0;
    storeAnswers = true;
  }

  /**
   * For how long the sensor may be quiet because of its usual interval; zero before that is known.
   * While the store does not answer, what was learned last counts. Empty if the time of this round
   * is over: ask in the next one.
   *
   * @param last when the sensor was last heard
   */
  Optional<Duration> quietFor(Placement placement, Instant last) {
    Instant placed = placement.from();
    Learned known = learned.get(placement.sensor());
    if (known != null && !known.placed().equals(placed)) {
      known = null;
    }
    boolean current = known != null && known.last().equals(last);
    if (!current && storeAnswers && last.isAfter(placed)) {
      if (spentNanos >= MAX_NANOS_PER_ROUND) {
        return Optional.empty();
      }
      long began = nanos.getAsLong();
      try {
        known = new Learned(placed, last, learn(placement.sensor(), placed, last));
        learned.put(placement.sensor(), known);
      } catch (StoreException e) {
        storeAnswers = false;
      }
      spentNanos += nanos.getAsLong() - began;
    }
    return Optional.of(known == null ? Duration.ZERO : quietFor(known.interval()));
  }

  private static Duration quietFor(@Nullable Duration interval) {
    if (interval == null) {
      return Duration.ZERO;
    }
    Duration usual = interval.multipliedBy(ReportingRecord.LATE_INTERVALS);
    return usual.compareTo(LONGEST) > 0 ? LONGEST : usual;
  }

  private @Nullable Duration learn(SensorId sensor, Instant placed, Instant last) {
    long[] found = {};
    for (Duration back : LOOK_BACK) {
      Instant from = last.minus(back);
      boolean all = !from.isAfter(placed);
      found = instants.apply(sensor, new Span(all ? placed : from, last));
      if (all || ReportingRecord.moments(found).length > ReportingRecord.INTERVALS) {
        break;
      }
    }
    return ReportingRecord.usualInterval(found);
  }
}
