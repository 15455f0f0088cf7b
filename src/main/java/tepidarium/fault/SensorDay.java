package tepidarium.fault;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * What the fault rules need to know of one sensor and one day (UTC): the faults found in its
 * readings, and a few figures for rules that compare days. All values are raw.
 *
 * @param day days since 1970-01-01
 * @param readings number of readings of the quantity reported most often
 * @param intervalSeconds median time between readings, s; NaN with fewer than two
 * @param batteryV median voltage; NaN without battery readings
 * @param quantities temperature and humidity by themselves; no entry without readings
 * @param hourlyMeans 24 means of each quantity, NaN for an hour without readings; no entry without
 *     readings
 */
public record SensorDay(
    SensorId sensor,
    long day,
    List<Fault> faults,
    int readings,
    double intervalSeconds,
    double batteryV,
    Map<Quantity, QuantityDay> quantities,
    Map<Quantity, double[]> hourlyMeans) {
  public static final long DAY_MS = Duration.ofDays(1).toMillis();
  static final int HOURS = 24;

  public SensorDay {
    faults = List.copyOf(faults);
    quantities = Map.copyOf(quantities);
    hourlyMeans = Map.copyOf(hourlyMeans);
  }

  public static long dayOf(long ms) {
    return Math.floorDiv(ms, DAY_MS);
  }

  public Span span() {
    return Span.ofMillis(day * DAY_MS, (day + 1) * DAY_MS);
  }

  /** The start of an hour of the day. */
  public Instant hour(int hour) {
    return Instant.ofEpochMilli(day * DAY_MS + hour * (DAY_MS / HOURS));
  }

  /** The mean of one hour; NaN if there are no readings. */
  double mean(Quantity quantity, int hour) {
    double[] means = hourlyMeans.get(quantity);
    return means == null ? Double.NaN : means[hour];
  }

  /** The readings of one quantity; null without readings. */
  @Nullable QuantityDay of(Quantity quantity) {
    return quantities.get(quantity);
  }
}
