package tepidarium.fault;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.stats.Median;

/**
 * Finds two sensors of one container that differ by more than their errors allow, on two days in a
 * row. Compares the median over a day of the differences of hourly means, after calibration, so
 * that an opening or a short disturbance does not count. The bounds are common practice, no source.
 */
public final class DriftRule {
  /** Allowance for real differences between two places in one container, 0.5 °C. */
  static final double PLACES_C = 0.5;

  /** The same for relative humidity, 3 %. */
  static final double PLACES_PERCENT = 3;

  /** Fewest hours of a day in which both sensors report. */
  static final int LEAST_HOURS = 6;

  /** Corrects a raw hourly mean. */
  public interface Corrected {
    double value(SensorDay day, Quantity quantity, int hour, double raw);
  }

  /** The error of a sensor at a corrected value, in the unit of the quantity. */
  public interface ErrorBound {
    double of(SensorDay day, Quantity quantity, double value);
  }

  private final Corrected corrected;
  private final ErrorBound error;

  public DriftRule(Corrected corrected, ErrorBound error) {
    this.corrected = corrected;
    this.error = error;
  }

  /**
   * Finds the faults of a pair. The second sensor gets them; which of the two is wrong is unknown.
   *
   * @param first days of one sensor while it was in the container, in order of time
   * @param second days of the other one
   */
  public List<Fault> of(List<SensorDay> first, List<SensorDay> second) {
    Map<Long, SensorDay> others = new HashMap<>();
    first.forEach(day -> others.put(day.day(), day));
    List<Fault> faults = new ArrayList<>();
    for (Quantity quantity : List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY)) {
      Fault yesterday = null;
      boolean reported = false;
      for (SensorDay day : second) {
        SensorDay other = others.get(day.day());
        Fault today = other == null ? null : compared(other, day, quantity);
        boolean inARow =
            today != null
                && yesterday != null
                && today.from().equals(yesterday.from().plusMillis(SensorDay.DAY_MS));
        if (inARow && !reported) {
          faults.add(yesterday);
        }
        if (inARow) {
          faults.add(today);
        }
        reported = inARow;
        yesterday = today;
      }
    }
    return faults;
  }

  private @Nullable Fault compared(SensorDay first, SensorDay second, Quantity quantity) {
    double[] differences = new double[SensorDay.HOURS];
    double level = 0;
    int hours = 0;
    for (int hour = 0; hour < SensorDay.HOURS; hour++) {
      double a = first.mean(quantity, hour);
      double b = second.mean(quantity, hour);
      if (!Double.isNaN(a) && !Double.isNaN(b)) {
        double there = corrected.value(first, quantity, hour, a);
        double here = corrected.value(second, quantity, hour, b);
        boolean saturated =
            quantity == Quantity.HUMIDITY && Math.min(here, there) >= StuckRule.SATURATED_PERCENT;
        if (!saturated) {
          differences[hours++] = here - there;
          level += here;
        }
      }
    }
    if (hours < LEAST_HOURS) {
      return null;
    }
    double median = Median.of(Arrays.copyOf(differences, hours));
    double places = quantity == Quantity.TEMPERATURE ? PLACES_C : PLACES_PERCENT;
    double allowed =
        places
            + error.of(first, quantity, level / hours)
            + error.of(second, quantity, level / hours);
    if (Math.abs(median) <= allowed) {
      return null;
    }
    return new Fault(
        second.sensor(),
        quantity,
        FaultKind.DRIFT,
        second.span().from(),
        second.span().to().minusMillis(1),
        0,
        median,
        median,
        first.sensor());
  }
}
