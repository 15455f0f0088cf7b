package tepidarium.alert;

import java.time.Duration;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.heat.Limit;
import tepidarium.reading.Quantity;

/**
 * The conditions that need a person, with their rules. The temperature's deadband and the shortest
 * delays start from 5 % of the range and 60 s (ANSI/ISA-18.2 starting values, value from memory);
 * the longer delays outlast the cycle of a switched heat mat (common practice, no source).
 */
public enum AlertKind {
  /** Colder than the band's low limit. */
  COLD(Quantity.TEMPERATURE, 0.3, Duration.ofMinutes(10), Duration.ofMinutes(10)),
  /** Hotter than the band's high limit. */
  HOT(Quantity.TEMPERATURE, 0.3, Duration.ofMinutes(10), Duration.ofMinutes(10)),
  /**
   * Brighter than the band's limit. No deadband: a light sensor's step is as large as the limit.
   */
  LIGHT(Quantity.LIGHT, 0, Duration.ofMinutes(1), Duration.ofMinutes(2)),
  /** Drier than the band's limit. */
  DRY(Quantity.HUMIDITY, 2, Duration.ofMinutes(30), Duration.ofMinutes(10)),
  /** A placed sensor has not been heard, minutes. Judged by arrival, so no delay on top. */
  SILENT(null, 0, Duration.ZERO, Duration.ZERO);

  private final @Nullable Quantity quantity;
  private final double deadband;
  private final Duration onDelay;
  private final Duration offDelay;

  AlertKind(@Nullable Quantity quantity, double deadband, Duration onDelay, Duration offDelay) {
    this.quantity = quantity;
    this.deadband = deadband;
    this.onDelay = onDelay;
    this.offDelay = offDelay;
  }

  /** The quantity that the condition watches; null for silence. */
  public @Nullable Quantity quantity() {
    return quantity;
  }

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The unit of the limit and the values. */
  public String unit() {
    return quantity == null ? "min" : quantity.unit();
  }

  /** The limit that the band sets; for silence, after how long a sensor counts as silent. */
  public Limit limit(Band band, Duration silentAfter) {
    return switch (this) {
      case COLD -> Limit.low(band.temperatureLowC());
      case HOT -> Limit.high(band.temperatureHighC());
      case LIGHT -> Limit.high(band.lightHighLux());
      case DRY -> Limit.low(band.humidityLowPercent());
      case SILENT -> Limit.high(silentAfter.toSeconds() / 60.0);
    };
  }

  public Rule rule(Limit limit) {
    return new Rule(limit, deadband, onDelay, offDelay);
  }

  /** Whether opening the container for a check brings the condition about by design. */
  public boolean expectedWhileOpen() {
    return this != SILENT && this != HOT;
  }
}
