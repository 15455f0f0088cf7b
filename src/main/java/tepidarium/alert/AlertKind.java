package tepidarium.alert;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.heat.Limit;
import tepidarium.reading.Quantity;

/**
 * The kinds of alert, each with its default rule. {@code src/docs/alerts.md} gives the same table
 * with its reasons. The usual starting values for temperature are a deadband of 1 % of the range
 * and delays of 60 s (ANSI/ISA-18.2, value from memory). The delays here are longer than the cycle
 * of a switched heat mat (common practice, no source). Drying and cold have the highest priority
 * because they kill fresh tropical seed soonest.
 */
public enum AlertKind {
  /** Colder than the band's low limit. */
  COLD("cold", Quantity.TEMPERATURE, "°C", 0.3, minutes(10), minutes(10), Priority.HIGH),
  /** Hotter than the band's high limit. */
  HOT("hot", Quantity.TEMPERATURE, "°C", 0.3, minutes(10), minutes(10), Priority.MEDIUM),
  /**
   * Brighter than the band's limit. No deadband, because one step of a light sensor is as large as
   * the limit.
   */
  LIGHT("light", Quantity.LIGHT, "lux", 0, minutes(1), minutes(2), Priority.MEDIUM),
  /** Drier than the band's limit. */
  DRY("dry", Quantity.HUMIDITY, "%", 2, minutes(30), minutes(10), Priority.HIGH),
  /**
   * Minutes without a message from a placed sensor. Measured by arrival time; needs no additional
   * delay.
   */
  SILENT("silent", null, "min", 0, minutes(0), minutes(0), Priority.MEDIUM),
  /** A sensor's battery is nearly empty. */
  BATTERY("battery", Quantity.BATTERY, "V", 0.1, minutes(60), minutes(60), Priority.LOW),
  /** Number of detected sensor faults. */
  FAULTY("faulty", null, "signs", 0, minutes(10), minutes(30), Priority.MEDIUM),
  /** Predicted minutes until the temperature crosses the low limit. */
  HEADING_COLD("headingCold", null, "min", 15, minutes(15), minutes(30), Priority.MEDIUM),
  /** Predicted minutes until the temperature crosses the high limit. */
  HEADING_HOT("headingHot", null, "min", 15, minutes(15), minutes(30), Priority.LOW),
  /** Carbon dioxide is high, so the seeds may lack air. */
  STALE_AIR(
      "staleAir", Quantity.CARBON_DIOXIDE, "ppm", 500, minutes(60), minutes(30), Priority.MEDIUM),
  /** The medium that the seeds lie in is dry. */
  DRY_MEDIUM(
      "dryMedium", Quantity.MEDIUM_MOISTURE, "%", 2, minutes(60), minutes(30), Priority.MEDIUM);

  /**
   * Two percent of the air. Seeds breathe out about as much carbon dioxide as they take oxygen, so
   * less than a tenth of the oxygen is used up by then; value from memory, no source.
   */
  private static final double STALE_AIR_PPM = 20_000;

  /** Common potting media hold 30 to 60 % of water when moist; common practice, no source. */
  private static final double DRY_MEDIUM_PERCENT = 20;

  /**
   * Below this voltage a lithium-ion cell, or three alkaline cells in series, are nearly empty;
   * common practice, no source.
   */
  private static final double BATTERY_LOW_V = 3.3;

  /** Forecast lead time; enough to get home or plug in a mat; common practice, no source. */
  private static final double FORESEEN_MINUTES = 120;

  private final String key;
  private final @Nullable Quantity quantity;
  private final String unit;
  private final double deadband;
  private final Duration onDelay;
  private final Duration offDelay;
  private final Priority priority;

  AlertKind(
      String key,
      @Nullable Quantity quantity,
      String unit,
      double deadband,
      Duration onDelay,
      Duration offDelay,
      Priority priority) {
    this.key = key;
    this.quantity = quantity;
    this.unit = unit;
    this.deadband = deadband;
    this.onDelay = onDelay;
    this.offDelay = offDelay;
    this.priority = priority;
  }

  private static Duration minutes(long minutes) {
    return Duration.ofMinutes(minutes);
  }

  /** The evaluated quantity; null if the condition is not based on a measured value. */
  public @Nullable Quantity quantity() {
    return quantity;
  }

  /** The name used in topics and JSON, for example {@code headingCold}. */
  public String key() {
    return key;
  }

  public static Optional<AlertKind> ofKey(String key) {
    for (AlertKind kind : values()) {
      if (kind.key.equals(key)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }

  /** The unit of the limit and the values. */
  public String unit() {
    return unit;
  }

  /** Whether the container's band sets the limit; for other kinds the rule sets it. */
  public boolean limitFromBand() {
    return switch (this) {
      case COLD, HOT, LIGHT, DRY -> true;
      default -> false;
    };
  }

  /** Whether this kind is a forecast. */
  public boolean foresees() {
    return this == HEADING_COLD || this == HEADING_HOT;
  }

  /**
   * The default rule.
   *
   * @param silentAfter time without a message after which a sensor counts as silent
   */
  AlertRule standard(Band band, Duration silentAfter) {
    Limit limit =
        switch (this) {
          case COLD -> Limit.low(band.temperatureLowC());
          case HOT -> Limit.high(band.temperatureHighC());
          case LIGHT -> Limit.high(band.lightHighLux());
          case DRY -> Limit.low(band.humidityLowPercent());
          case SILENT -> Limit.high(silentAfter.toSeconds() / 60.0);
          case BATTERY -> Limit.low(BATTERY_LOW_V);
          case FAULTY -> Limit.high(0);
          case HEADING_COLD, HEADING_HOT -> Limit.low(FORESEEN_MINUTES);
          case STALE_AIR -> Limit.high(STALE_AIR_PPM);
          case DRY_MEDIUM -> Limit.low(DRY_MEDIUM_PERCENT);
        };
    return new AlertRule(rule(limit), priority);
  }

  Rule rule(Limit limit) {
    return new Rule(limit, deadband, onDelay, offDelay);
  }

  /** Whether opening the container for a check normally causes the condition. */
  public boolean expectedWhileOpen() {
    return switch (this) {
      case COLD, LIGHT, DRY, FAULTY, HEADING_COLD -> true;
      default -> false;
    };
  }
}
