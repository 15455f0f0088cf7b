package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A value by which a condition is evaluated.
 *
 * @param at event time of its reading
 * @param value in the unit of the kind
 * @param detail additional text for the alert; null if none
 * @param trend temperature, its rate and its steady value; only for forecast kinds
 * @param forecastAt predicted time of crossing the limit; only for forecast kinds
 */
public record Observation(
    AlertKind kind,
    Instant at,
    double value,
    @Nullable String detail,
    @Nullable Trend trend,
    @Nullable Instant forecastAt) {
  /**
   * Maximum value of a forecast observation. A later crossing, or none, has this value and no
   * forecast time.
   */
  private static final Duration MAX_TIME_TO_CROSSING = Duration.ofDays(7);

  /** Creates an observation of a quantity. */
  public static Observation value(AlertKind kind, Instant at, double value) {
    return new Observation(kind, at, value, null, null, null);
  }

  /**
   * Creates an observation of the number of sensor faults.
   *
   * @param count number of faults; 0 for none
   * @param detail description of the faults
   */
  public static Observation faults(Instant at, int count, @Nullable String detail) {
    return new Observation(AlertKind.FAULTY, at, count, detail, null, null);
  }

  /**
   * Creates an observation of a forecast.
   *
   * @param crossesAt predicted time of crossing the limit; null if none is predicted
   * @param trend temperature, its rate and its steady value; its words become the detail. Null if
   *     it is steady
   */
  public static Observation heading(
      AlertKind kind, Instant at, @Nullable Instant crossesAt, @Nullable Trend trend) {
    Duration ahead = crossesAt == null ? MAX_TIME_TO_CROSSING : Duration.between(at, crossesAt);
    boolean near = ahead.compareTo(MAX_TIME_TO_CROSSING) < 0;
    double minutes = Math.max(0, (near ? ahead : MAX_TIME_TO_CROSSING).toMillis() / 60_000.0);
    String detail = trend == null ? null : trend.words();
    return new Observation(kind, at, minutes, detail, trend, near ? crossesAt : null);
  }
}
