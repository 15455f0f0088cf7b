package tepidarium.sensor;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;
import tepidarium.stats.Median;
import tepidarium.stats.TheilSen;

/**
 * When the battery of a sensor will be empty if its voltage keeps falling as in the last weeks. The
 * voltage of each day, as the median of its readings, is fitted with a robust straight line ({@link
 * TheilSen}) since the last rise by more than 0.15 V, which means charged or new cells. Days left =
 * (level of the line now − empty voltage) / fall per day. The bounds use the 95 % interval of the
 * slope. They do not contain that cells fall faster near their end and read lower when they are
 * cold. Bounds without a source beside them are common practice.
 *
 * @param volts level of the line now, or the newest day's median without a line, V
 * @param emptyVolts voltage at which the cells count as empty, V; null if it is not known
 * @param voltsPerDay slope of the line, V a day; null without a line
 * @param daysLeft null if it is not known; see {@code reason}
 * @param daysLeast lower bound of the days left; may be known although {@code daysLeft} is not
 * @param daysMost upper bound; null for none
 * @param reason why the days left are not known; null if they are
 */
public record BatteryForecast(
    double volts,
    @Nullable Double emptyVolts,
    @Nullable Double voltsPerDay,
    @Nullable Double daysLeft,
    @Nullable Double daysLeast,
    @Nullable Double daysMost,
    @Nullable Reason reason) {
  /** Length of the past that is used. */
  public static final Duration LOOKS_BACK = Duration.ofDays(30);

  /**
   * A lithium-ion cell, or three alkaline cells in series, are nearly empty at this voltage; the
   * default limit of the battery alert.
   */
  static final double USUAL_EMPTY_V = 3.3;

  private static final double RISE_V = 0.15;
  private static final double FEWEST_DAYS = 5;

  /** A straight line says nothing about more days than this. */
  private static final double MOST_DAYS = 730;

  /** The battery counts as low when fewer days than this may be left. */
  private static final double LOW_DAYS = 14;

  private static final double DAY_MS = 86_400_000;

  /** Why the days left are not known. */
  public enum Reason {
    /** Fewer than six days with readings since the last rise. */
    TOO_SHORT,
    /** The interval of the slope contains zero: no fall can be seen yet. */
    FLAT,
    /** The voltage rises, as of a cell that is being charged. */
    RISING,
    /** All voltages are below the usual empty voltage, and the grower entered no other. */
    UNKNOWN_CELLS;

    /** The name in JSON, such as {@code tooShort}. */
    public String key() {
      return switch (this) {
        case TOO_SHORT -> "tooShort";
        case FLAT -> "flat";
        case RISING -> "rising";
        case UNKNOWN_CELLS -> "unknownCells";
      };
    }
  }

  /** The median voltage of one day. */
  private record DayVolts(double day, double volts) {}

  /**
   * Forecasts.
   *
   * @param battery raw voltages, at least one
   * @param entered empty voltage that the grower entered, V; null for the usual one
   */
  public static BatteryForecast of(Samples battery, @Nullable Double entered, Instant now) {
    List<DayVolts> days = days(battery, now.toEpochMilli());
    double newest = days.get(days.size() - 1).volts();
    Double usual = highest(days) >= USUAL_EMPTY_V ? Double.valueOf(USUAL_EMPTY_V) : null;
    Double empty = entered == null ? usual : entered;
    List<DayVolts> curve = sinceRise(days);
    double length = curve.get(curve.size() - 1).day() - curve.get(0).day();
    if (curve.size() < TheilSen.FEWEST_POINTS || length < FEWEST_DAYS) {
      return unknown(newest, empty, null, null, Reason.TOO_SHORT);
    }
    TheilSen line =
        TheilSen.of(
            curve.stream().mapToDouble(DayVolts::day).toArray(),
            curve.stream().mapToDouble(DayVolts::volts).toArray());
    return ofLine(line, empty);
  }

  /** The line has now at x = 0. */
  private static BatteryForecast ofLine(TheilSen line, @Nullable Double empty) {
    double level = line.intercept();
    if (empty == null) {
      return unknown(level, null, line.slope(), null, Reason.UNKNOWN_CELLS);
    }
    double left = Math.max(0, level - empty);
    Double least = days(left, line.interval().low());
    if (line.interval().low() > 0) {
      return unknown(level, empty, line.slope(), null, Reason.RISING);
    }
    Double likely = days(left, line.slope());
    if (line.interval().high() >= 0 || likely == null) {
      return unknown(level, empty, line.slope(), least, Reason.FLAT);
    }
    Double most = days(left, line.interval().high());
    return new BatteryForecast(level, empty, line.slope(), likely, least, most, null);
  }

  private static BatteryForecast unknown(
      double volts,
      @Nullable Double empty,
      @Nullable Double slope,
      @Nullable Double least,
      Reason reason) {
    return new BatteryForecast(volts, empty, slope, null, least, null, reason);
  }

  /** Null if the voltage does not fall, or reaches the end only after two years. */
  private static @Nullable Double days(double volts, double slope) {
    double days = volts / -slope;
    return slope < 0 && days <= MOST_DAYS ? Double.valueOf(days) : null;
  }

  private static double highest(List<DayVolts> days) {
    return days.stream().mapToDouble(DayVolts::volts).max().orElseThrow();
  }

  /** The days with readings, counted back from now, so that the newest ends now. */
  private static List<DayVolts> days(Samples battery, long nowMs) {
    List<DayVolts> days = new ArrayList<>();
    int start = 0;
    for (int i = 1; i <= battery.size(); i++) {
      boolean ends =
          i == battery.size() || dayOf(battery, i, nowMs) != dayOf(battery, start, nowMs);
      if (ends) {
        days.add(median(battery, start, i, nowMs));
        start = i;
      }
    }
    return days;
  }

  private static double dayOf(Samples battery, int index, long nowMs) {
    return Math.ceil((battery.atMs(index) - nowMs) / DAY_MS);
  }

  private static DayVolts median(Samples battery, int from, int until, long nowMs) {
    double[] volts = new double[until - from];
    for (int i = from; i < until; i++) {
      volts[i - from] = battery.value(i);
    }
    double middleMs = (battery.atMs(from) + battery.atMs(until - 1)) / 2.0;
    return new DayVolts((middleMs - nowMs) / DAY_MS, Median.of(volts));
  }

  private static List<DayVolts> sinceRise(List<DayVolts> days) {
    int start = 0;
    for (int i = 1; i < days.size(); i++) {
      if (days.get(i).volts() - days.get(i - 1).volts() > RISE_V) {
        start = i;
      }
    }
    return days.subList(start, days.size());
  }

  /** Whether the cells need attention: empty, or perhaps so within two weeks. */
  public boolean low() {
    return (emptyVolts != null && volts <= emptyVolts)
        || (daysLeft != null && daysLeast != null && daysLeast < LOW_DAYS);
  }
}
