package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A value by which a condition is evaluated.
 *
 * @param at event time of its reading
 * @param value in the unit of the kind
 * @param reasons what shows it; empty where the value says all
 * @param trend temperature, its rate and its steady value; only for forecast kinds
 * @param forecastAt predicted time of crossing the limit; only for forecast kinds
 */
public record Observation(
    AlertKind kind,
    Instant at,
    double value,
    List<AlertReason> reasons,
    @Nullable Trend trend,
    @Nullable Instant forecastAt) {
  /**
   * Maximum value of a forecast observation. A later crossing, or none, has this value and no
   * forecast time.
   */
  private static final Duration MAX_TIME_TO_CROSSING = Duration.ofDays(7);

  /** Creates an observation of a quantity. */
  public static Observation value(AlertKind kind, Instant at, double value) {
    return new Observation(kind, at, value, List.of(), null, null);
  }

  /**
   * Creates an observation of the number of sensor faults.
   *
   * @param faults their reasons; empty for none
   */
  public static Observation faults(Instant at, List<AlertReason> faults) {
    return new Observation(AlertKind.FAULTY, at, faults.size(), faults, null, null);
  }

  /**
   * Creates an observation of a forecast.
   *
   * @param crossesAt predicted time of crossing the limit; null if none is predicted
   * @param trend temperature, its rate and its steady value; null if it is steady
   */
  public static Observation heading(
      AlertKind kind, Instant at, @Nullable Instant crossesAt, @Nullable Trend trend) {
    Duration ahead = crossesAt == null ? MAX_TIME_TO_CROSSING : Duration.between(at, crossesAt);
    boolean near = ahead.compareTo(MAX_TIME_TO_CROSSING) < 0;
    double minutes = Math.max(0, (near ? ahead : MAX_TIME_TO_CROSSING).toMillis() / 60_000.0);
    List<AlertReason> reasons = trend == null ? List.of() : List.of(trend.reason());
    return new Observation(kind, at, minutes, reasons, trend, near ? crossesAt : null);
  }
}
