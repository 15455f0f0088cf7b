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
@SuppressWarnings("ImmutableEnumChecker") // its records hold only immutable values
public enum AlertKind {
  /** Colder than the band's low limit. */
  COLD(
      "cold",
      Words.below("colder than {limit} °C"),
      Measure.fromBand(Quantity.TEMPERATURE, "°C"),
      new Defaults(0.3, minutes(10), minutes(10), Priority.HIGH)),
  /** Hotter than the band's high limit. */
  HOT(
      "hot",
      Words.above("hotter than {limit} °C"),
      Measure.fromBand(Quantity.TEMPERATURE, "°C"),
      new Defaults(0.3, minutes(10), minutes(10), Priority.MEDIUM)),
  /**
   * Brighter than the band's limit. No deadband, because one step of a light sensor is as large as
   * the limit.
   */
  LIGHT(
      "light",
      Words.above("brighter than {limit} lux"),
      Measure.fromBand(Quantity.LIGHT, "lux"),
      new Defaults(0, minutes(1), minutes(2), Priority.MEDIUM)),
  /** Drier than the band's limit. */
  DRY(
      "dry",
      Words.below("drier than {limit} %"),
      Measure.fromBand(Quantity.HUMIDITY, "%"),
      new Defaults(2, minutes(30), minutes(10), Priority.HIGH)),
  /**
   * Minutes without a message from a placed sensor. Measured by arrival time; needs no additional
   * delay.
   */
  SILENT(
      "silent",
      Words.plain("silent: a sensor in it has not been heard"),
      new Measure(null, "min", new LimitRange(1, 7 * 1_440)),
      new Defaults(0, minutes(0), minutes(0), Priority.MEDIUM)),
  /** A sensor's battery is nearly empty. */
  BATTERY(
      "battery",
      Words.plain("low on battery, below {limit} V"),
      new Measure(Quantity.BATTERY, "V", new LimitRange(0, 60)),
      new Defaults(0.1, minutes(60), minutes(60), Priority.LOW)),
  /** Number of detected sensor faults. */
  FAULTY(
      "faulty",
      Words.plain("not measured reliably"),
      new Measure(null, "signs", new LimitRange(0, 10)),
      new Defaults(0, minutes(10), minutes(30), Priority.MEDIUM)),
  /** Predicted minutes until the temperature crosses the low limit. */
  HEADING_COLD(
      "headingCold",
      Words.plain("getting too cold"),
      new Measure(null, "min", new LimitRange(5, 1_440)),
      new Defaults(15, minutes(15), minutes(30), Priority.MEDIUM)),
  /** Predicted minutes until the temperature crosses the high limit. */
  HEADING_HOT(
      "headingHot",
      Words.plain("getting too hot"),
      new Measure(null, "min", new LimitRange(5, 1_440)),
      new Defaults(15, minutes(15), minutes(30), Priority.LOW)),
  /** Carbon dioxide is high, so the seeds may lack air. */
  STALE_AIR(
      "staleAir",
      Words.above("short of air, above {limit} ppm of CO₂"),
      new Measure(Quantity.CARBON_DIOXIDE, "ppm", new LimitRange(400, 1_000_000)),
      new Defaults(500, minutes(60), minutes(30), Priority.MEDIUM)),
  /** The medium that the seeds lie in is dry. */
  DRY_MEDIUM(
      "dryMedium",
      Words.below("dry in its medium, below {limit} %"),
      new Measure(Quantity.MEDIUM_MOISTURE, "%", new LimitRange(0, 100)),
      new Defaults(2, minutes(60), minutes(30), Priority.MEDIUM));

  /**
   * The words for an alert of this kind.
   *
   * @param phrase what the container is, with the limit, which replaces {@code {limit}}
   * @param beyond "below" or "above" the limit; empty if the subject of a notice has no limit
   */
  private record Words(String phrase, String beyond) {
    static Words below(String phrase) {
      return new Words(phrase, "below");
    }

    static Words above(String phrase) {
      return new Words(phrase, "above");
    }

    static Words plain(String phrase) {
      return new Words(phrase, "");
    }
  }

  /** The evaluated value, and the limits that a rule may set; null if the band sets the limit. */
  private record Measure(
      @Nullable Quantity quantity, String unit, @Nullable LimitRange limitRange) {
    static Measure fromBand(Quantity quantity, String unit) {
      return new Measure(quantity, unit, null);
    }
  }

  private record Defaults(
      double deadband, Duration onDelay, Duration offDelay, Priority priority) {}

  /**
   * The limits that a rule may set.
   *
   * @param low lowest limit, in the unit of the kind
   * @param high highest limit, in the unit of the kind
   */
  record LimitRange(double low, double high) {}

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

  private final String key;
  private final Words words;
  private final Measure measure;
  private final Defaults defaults;

  AlertKind(String key, Words words, Measure measure, Defaults defaults) {
    this.key = key;
    this.words = words;
    this.measure = measure;
    this.defaults = defaults;
  }

  private static Duration minutes(long minutes) {
    return Duration.ofMinutes(minutes);
  }

  /** The evaluated quantity; null if the condition is not based on a measured value. */
  public @Nullable Quantity quantity() {
    return measure.quantity();
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
    return measure.unit();
  }

  /** The side of the limit, "below" or "above"; empty if the subject of a notice has no limit. */
  public String beyond() {
    return words.beyond();
  }

  /** The state with its limit, such as "colder than 27 °C". */
  String phrase(String limit) {
    return words.phrase().replace("{limit}", limit);
  }

  /** The limits that a rule may set; null if the container's band sets the limit. */
  @Nullable LimitRange limitRange() {
    return measure.limitRange();
  }

  /** Whether the container's band sets the limit; for other kinds the rule sets it. */
  public boolean limitFromBand() {
    return measure.limitRange() == null;
  }

  /** Whether this kind is a forecast. */
  public boolean isForecast() {
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
          case HEADING_COLD, HEADING_HOT -> Limit.low((double) Forecast.MAX_LEAD_TIME.toMinutes());
          case STALE_AIR -> Limit.high(STALE_AIR_PPM);
          case DRY_MEDIUM -> Limit.low(DRY_MEDIUM_PERCENT);
        };
    return new AlertRule(rule(limit), defaults.priority());
  }

  Rule rule(Limit limit) {
    return new Rule(limit, defaults.deadband(), defaults.onDelay(), defaults.offDelay());
  }

  /** Whether opening the container for a check normally causes the condition. */
  public boolean expectedWhileOpen() {
    return switch (this) {
      case COLD, LIGHT, DRY, FAULTY, HEADING_COLD -> true;
      default -> false;
    };
  }
}
