package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One value to judge a condition by.
 *
 * @param at event time of the reading that it comes from
 * @param value in the unit of the kind
 * @param detail more in words, told with the alert; null where the value says all
 * @param forecastAt when the limit will be crossed; only for kinds that foresee
 */
public record Sign(
    AlertKind kind,
    Instant at,
    double value,
    @Nullable String detail,
    @Nullable Instant forecastAt) {
  /** As far as a forecast looks; what will not happen within it counts as this far. */
  private static final Duration HORIZON = Duration.ofDays(7);

  /** A value of a quantity. */
  public static Sign value(AlertKind kind, Instant at, double value) {
    return new Sign(kind, at, value, null, null);
  }

  /**
   * How many signs of a fault there are at that instant.
   *
   * @param count 0 when the sensor can be believed
   * @param detail what they are, in words
   */
  public static Sign faults(Instant at, int count, @Nullable String detail) {
    return new Sign(AlertKind.FAULTY, at, count, detail, null);
  }

  /**
   * Where a trend leads.
   *
   * @param crossesAt when the limit will be crossed; null when it will not
   */
  public static Sign heading(
      AlertKind kind, Instant at, @Nullable Instant crossesAt, @Nullable String detail) {
    Duration ahead = crossesAt == null ? HORIZON : Duration.between(at, crossesAt);
    boolean near = ahead.compareTo(HORIZON) < 0;
    double minutes = Math.max(0, (near ? ahead : HORIZON).toMillis() / 60_000.0);
    return new Sign(kind, at, minutes, detail, near ? crossesAt : null);
  }
}
