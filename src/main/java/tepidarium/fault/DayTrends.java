package tepidarium.fault;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * Finds the faults of one sensor that show only over days: a value stuck for whole days, a
 * lengthening interval, a falling battery. The bounds are common practice, no source.
 */
public final class DayTrends {
  /** Days that are needed before a span: a stuck value is compared with up to 30 days before. */
  public static final int DAYS_BEFORE = 30;

  /** A day with at least this share of changing readings shows that the sensor is lively: 1/5. */
  private static final int LIVELY = StuckRule.CHANGES;

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
    for (int i = 0; i < days.size(); i++) {
      if (days.get(i).readings() > 0) {
        List<SensorDay> before = days.subList(0, i);
        for (Quantity quantity : List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY)) {
          stuck(days.get(i), before, quantity, faults);
        }
        interval(days.get(i), before, faults);
        battery(days.get(i), before, faults);
      }
    }
    return faults;
  }

  private static void stuck(
      SensorDay day, List<SensorDay> before, Quantity quantity, List<Fault> faults) {
    boolean found =
        day.faults().stream()
            .anyMatch(one -> one.kind() == FaultKind.STUCK && one.quantity() == quantity);
    if (found || !day.isConstant(quantity)) {
      return;
    }
    double value = anyMean(day, quantity);
    boolean quiet = quantity == Quantity.HUMIDITY && value >= StuckRule.SATURATED_PERCENT;
    for (int i = before.size() - 1; i >= 0 && !quiet; i--) {
      SensorDay earlier = before.get(i);
      boolean near = day.day() - earlier.day() <= DAYS_BEFORE;
      boolean measured = near && earlier.changes().containsKey(quantity);
      if (measured && !earlier.isConstant(quantity)) {
        if (earlier.changes().getOrDefault(quantity, 0) * LIVELY * 2 >= earlier.readings()) {
          faults.add(fault(day, quantity, FaultKind.STUCK, day.readings(), value, value));
        }
        return;
      }
    }
  }

  private static double anyMean(SensorDay day, Quantity quantity) {
    for (int hour = 0; hour < SensorDay.HOURS; hour++) {
      if (!Double.isNaN(day.mean(quantity, hour))) {
        return day.mean(quantity, hour);
      }
    }
    return Double.NaN;
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
    double usual = DaySearch.median(earlier);
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
