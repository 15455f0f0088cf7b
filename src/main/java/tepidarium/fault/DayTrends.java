package tepidarium.fault;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.stats.Median;

/**
 * Finds the faults of one sensor that show only over days: a value stuck for whole days, a
 * lengthening interval, a falling battery. The bounds are common practice, no source.
 */
public final class DayTrends {
  /** Days that are needed before a span: a stuck value is compared with up to 30 days before. */
  public static final int DAYS_BEFORE = 30;

  /**
   * A sensor is lively on a day with at least one change in this many readings. Half as many
   * changes as {@link StuckRule#CHANGES} asks for, because the day may be stuck in part.
   */
  private static final int LIVELY = 2 * StuckRule.CHANGES;

  /**
   * A day is compared with days up to 14 before, so that a wanted change is reported for 14 days.
   */
  private static final int INTERVAL_DAYS = 14;

  /** The usual interval is the median of the first 7 of those days. */
  private static final int USUAL_DAYS = 7;

  private static final int BATTERY_DAYS = 7;

  private static final int LEAST_DAYS = 4;
  private static final int LEAST_READINGS = 6;

  /** The interval is longer than before by this factor and by at least one minute. */
  private static final double INTERVAL_FACTOR = 2;

  private static final double LEAST_SECONDS = 60;

  /** The battery is lower than within the 7 days before by this share: 5 %. */
  private static final double BATTERY_SHARE = 0.05;

  private DayTrends() {}

  /**
   * Finds faults in days of one sensor.
   *
   * @param days in order of time; days without readings may be missing
   */
  public static List<Fault> of(List<SensorDay> days) {
    List<Fault> faults = new ArrayList<>();
    stuck(days, Quantity.TEMPERATURE, faults);
    stuck(days, Quantity.HUMIDITY, faults);
    for (int i = 0; i < days.size(); i++) {
      if (days.get(i).readings() > 0) {
        List<SensorDay> before = days.subList(0, i);
        interval(days.get(i), before, faults);
        battery(days.get(i), before, faults);
      }
    }
    return faults;
  }

  private static void stuck(List<SensorDay> days, Quantity quantity, List<Fault> faults) {
    Fault previous = null;
    for (int i = 0; i < days.size(); i++) {
      Fault found = lastStuck(days.get(i), quantity);
      if (found == null) {
        found = stuck(days.get(i), days.subList(0, i), quantity, previous);
        if (found != null) {
          faults.add(found);
        }
      }
      previous = found;
    }
  }

  /**
   * Finds a value that stayed the same for the whole day, or since a stuck value of the day before.
   */
  private static @Nullable Fault stuck(
      SensorDay day, List<SensorDay> before, Quantity quantity, @Nullable Fault previous) {
    QuantityDay own = day.of(quantity);
    if (own == null || !own.isConstant()) {
      return null;
    }
    boolean quiet = quantity == Quantity.HUMIDITY && own.last() >= StuckRule.SATURATED_PERCENT;
    boolean stuck =
        own.isLong()
            ? livelyBefore(day, before, quantity)
            : previous != null && continues(previous, day, own);
    return stuck && !quiet
        ? new Fault(
            day.sensor(),
            quantity,
            FaultKind.STUCK,
            Instant.ofEpochMilli(own.firstMs()),
            Instant.ofEpochMilli(own.lastMs()),
            own.readings(),
            own.last(),
            own.last(),
            null)
        : null;
  }

  /** Whether a day too short to be judged goes on with the stuck value of the day before. */
  private static boolean continues(Fault previous, SensorDay day, QuantityDay own) {
    return SensorDay.dayOf(previous.to().toEpochMilli()) == day.day() - 1
        && own.firstMs() - previous.to().toEpochMilli() <= Faults.JOIN.toMillis()
        && previous.low() == own.last()
        && previous.high() == own.last();
  }

  /** Whether the latest day on which the value changed shows a lively sensor. */
  private static boolean livelyBefore(SensorDay day, List<SensorDay> before, Quantity quantity) {
    for (int i = before.size() - 1; i >= 0; i--) {
      QuantityDay earlier = before.get(i).of(quantity);
      boolean near = day.day() - before.get(i).day() <= DAYS_BEFORE;
      if (near && earlier != null && !earlier.isConstant()) {
        return earlier.changesOnceIn(LIVELY);
      }
    }
    return false;
  }

  private static @Nullable Fault lastStuck(SensorDay day, Quantity quantity) {
    return day.faults().stream()
        .filter(one -> one.kind() == FaultKind.STUCK && one.quantity() == quantity)
        .max(Comparator.comparing(Fault::to))
        .orElse(null);
  }

  private static void interval(SensorDay day, List<SensorDay> before, List<Fault> faults) {
    double[] earlier =
        before.stream()
            .filter(one -> day.day() - one.day() <= INTERVAL_DAYS)
            .filter(one -> one.readings() >= LEAST_READINGS)
            .limit(USUAL_DAYS)
            .mapToDouble(SensorDay::intervalSeconds)
            .toArray();
    double now = day.intervalSeconds();
    if (earlier.length < LEAST_DAYS || day.readings() < LEAST_READINGS) {
      return;
    }
    double usual = Median.of(earlier);
    if (now >= INTERVAL_FACTOR * usual && now - usual >= LEAST_SECONDS) {
      faults.add(fault(day, null, FaultKind.LENGTHENING_INTERVAL, 0, usual, now));
    }
  }

  private static void battery(SensorDay day, List<SensorDay> before, List<Fault> faults) {
    double highest =
        before.stream()
            .filter(one -> day.day() - one.day() <= BATTERY_DAYS)
            .mapToDouble(SensorDay::batteryV)
            .filter(volts -> !Double.isNaN(volts))
            .max()
            .orElse(Double.NaN);
    if (day.batteryV() <= highest * (1 - BATTERY_SHARE)) {
      faults.add(
          fault(day, Quantity.BATTERY, FaultKind.FALLING_BATTERY, 0, day.batteryV(), highest));
    }
  }

  private static Fault fault(
      SensorDay day,
      @Nullable Quantity quantity,
      FaultKind kind,
      int readings,
      double low,
      double high) {
    Instant end = day.span().to().minusMillis(1);
    return new Fault(
        day.sensor(), quantity, kind, day.span().from(), end, readings, low, high, null);
  }
}
