package tepidarium.alert;

import java.time.Duration;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.heat.Limit;
import tepidarium.reading.Quantity;

/**
 * The conditions that need a person, each with what holds for a container until somebody says
 * otherwise. {@code src/docs/alerts.md} gives the same table with its reasons. The starting values
 * of the trade for temperature are a deadband of 1 % of the range and delays of 60 s
 * (ANSI/ISA-18.2, value from memory); the longer delays outlast the cycle of a switched heat mat
 * (common practice, no source). Drying and cold kill fresh tropical seed soonest, so they come
 * first.
 */
public enum AlertKind {
  /** Colder than the band's low limit. */
  COLD("cold", Quantity.TEMPERATURE, "°C", 0.3, minutes(10), minutes(10), Priority.HIGH),
  /** Hotter than the band's high limit. */
  HOT("hot", Quantity.TEMPERATURE, "°C", 0.3, minutes(10), minutes(10), Priority.MEDIUM),
  /**
   * Brighter than the band's limit. No deadband: a light sensor's step is as large as the limit.
   */
  LIGHT("light", Quantity.LIGHT, "lux", 0, minutes(1), minutes(2), Priority.MEDIUM),
  /** Drier than the band's limit. */
  DRY("dry", Quantity.HUMIDITY, "%", 2, minutes(30), minutes(10), Priority.HIGH),
  /** A placed sensor has not been heard, minutes. Judged by arrival, so no delay on top. */
  SILENT("silent", null, "min", 0, minutes(0), minutes(0), Priority.MEDIUM),
  /** A sensor's cells are nearly empty. */
  BATTERY("battery", Quantity.BATTERY, "V", 0.1, minutes(60), minutes(60), Priority.LOW),
  /** So many signs that a sensor is not to be believed. */
  FAULTY("faulty", null, "signs", 0, minutes(10), minutes(30), Priority.MEDIUM),
  /** So few minutes until the low temperature limit will be crossed if nothing changes. */
  HEADING_COLD("headingCold", null, "min", 15, minutes(15), minutes(30), Priority.MEDIUM),
  /** So few minutes until the high temperature limit will be crossed if nothing changes. */
  HEADING_HOT("headingHot", null, "min", 15, minutes(15), minutes(30), Priority.LOW);

  /**
   * Below this a lithium-ion cell, or three alkaline cells in a row, are nearly empty; common
   * practice, no source.
   */
  private static final double BATTERY_LOW_V = 3.3;

  /** Time enough to get home, or to plug in a mat; common practice, no source. */
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

  /** The quantity whose values the condition is judged by; null where it is not a plain value. */
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

  /** Whether the container's band sets the limit; the other limits stand with the rule. */
  public boolean limitFromBand() {
    return switch (this) {
      case COLD, HOT, LIGHT, DRY -> true;
      case SILENT, BATTERY, FAULTY, HEADING_COLD, HEADING_HOT -> false;
    };
  }

  /** Whether this tells of a limit that has not been crossed yet. */
  public boolean foresees() {
    return this == HEADING_COLD || this == HEADING_HOT;
  }

  /**
   * What holds until somebody says otherwise.
   *
   * @param silentAfter how long a sensor may say nothing
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
        };
    return new AlertRule(rule(limit), priority);
  }

  Rule rule(Limit limit) {
    return new Rule(limit, deadband, onDelay, offDelay);
  }

  /** Whether opening the container for a check brings the condition about by design. */
  public boolean expectedWhileOpen() {
    return switch (this) {
      case COLD, LIGHT, DRY, FAULTY, HEADING_COLD -> true;
      case HOT, SILENT, BATTERY, HEADING_HOT -> false;
    };
  }
}
