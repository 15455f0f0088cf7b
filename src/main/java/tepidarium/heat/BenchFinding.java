package tepidarium.heat;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.stats.GroupMeans.Permutation;

/** The result of comparing two sides by their heat per day, with a text for the grower. */
public enum BenchFinding {
  /** The first side gave more heat. */
  MORE,
  /** The first side gave less heat. */
  LESS,
  /** The interval of the difference includes zero. */
  NONE_SHOWN,
  /** The difference is clear, but not larger than the error of the sensors. */
  WITHIN_SENSOR_ERROR,
  /** The containers differ clearly, but the difference cannot be attributed to the heat source. */
  ONLY_THESE_CONTAINERS,
  /** There are too few hours. */
  CANNOT_TELL;

  static BenchFinding of(HeatBench.Pair pair) {
    Estimate gain = pair.figures().degreeHoursPerDay();
    if (gain == null || gain.low() == null) {
      return CANNOT_TELL;
    }
    if (!gain.differsFromZero(0)) {
      return NONE_SHOWN;
    }
    if (!gain.differsFromZero(pair.sensorErrorPerDay())) {
      return WITHIN_SENSOR_ERROR;
    }
    Difference between = pair.between();
    boolean sources = pair.permutation() != null;
    if (sources && (between == null || !clear(between))) {
      return ONLY_THESE_CONTAINERS;
    }
    return gain.value() > 0 ? MORE : LESS;
  }

  private static boolean clear(Difference between) {
    return between.low() > 0 || between.high() < 0;
  }

  /** The result of one pair as text. */
  public static String words(HeatBench.Pair pair) {
    String a = pair.first().side().name();
    String b = pair.second().side().name();
    Estimate gain = pair.figures().degreeHoursPerDay();
    if (gain == null || gain.low() == null || gain.high() == null) {
      return tooFew(pair, a, b);
    }
    String difference = difference(gain, a, b);
    return switch (pair.finding()) {
      case MORE, LESS -> difference + "." + unit(pair);
      case NONE_SHOWN ->
          format(
              "No clear difference in heat between %s "
                  + "and %s: %s °C·h a day (95 %%: %s to %s).",
              a, b, signed(gain.value()), signed(gain.low()), signed(gain.high()));
      case WITHIN_SENSOR_ERROR ->
          difference
              + format(
                  ", but this is within the error of their sensors (±%.1f "
                      + "°C·h a day). Swap the sensors and measure again.",
                  pair.sensorErrorPerDay());
      case ONLY_THESE_CONTAINERS ->
          difference + ", but this shows only that these containers differ." + unit(pair);
      case CANNOT_TELL -> throw new IllegalStateException("an interval without days");
    };
  }

  private static String tooFew(HeatBench.Pair pair, String a, String b) {
    return format(
        "Too few hours to compare %s and %s: %d were "
            + "measured in both, and at least %d days are needed.",
        a, b, pair.hours(), AutocorrelatedMean.MIN_DAYS);
  }

  private static String difference(Estimate gain, String a, String b) {
    double low = gain.low() == null ? Double.NaN : gain.low();
    double high = gain.high() == null ? Double.NaN : gain.high();
    boolean more = gain.value() > 0;
    return format(
        "%s gave %.1f °C·h a day %s than %s (95 %%: %.1f to %.1f)",
        a,
        Math.abs(gain.value()),
        more ? "more" : "less",
        b,
        more ? low : -high,
        more ? high : -low);
  }

  /** A sentence on the conclusions that the number of containers allows. */
  private static String unit(HeatBench.Pair pair) {
    Permutation permutation = pair.permutation();
    if (permutation == null) {
      return "";
    }
    int a = pair.first().side().places().size();
    int b = pair.second().side().places().size();
    if (Math.min(a, b) < 2) {
      return format(
          " The container is the unit: with %d against %d, an effect of "
              + "the source cannot be separated from an effect of the container.",
          a, b);
    }
    return format(
        " The container is the unit: with %d against %d, "
            + "the smallest possible permutation p is %.3f%s.",
        a, b, permutation.leastP(), itIs(permutation.p()));
  }

  private static String itIs(@Nullable Double p) {
    return p == null ? "" : format("; here it is %.3f", p);
  }

  /** The result of the whole comparison as text. */
  public static String words(HeatBench.Comparison comparison) {
    int pairs = comparison.pairs().size();
    if (pairs == 1) {
      return words(comparison.pairs().get(0));
    }
    long differ =
        comparison.pairs().stream()
            .map(HeatBench.Pair::finding)
            .filter(finding -> finding == MORE || finding == LESS)
            .count();
    String shown = differ == 0 ? "None" : differ == pairs ? "All" : String.valueOf(differ);
    return format(
        "%s of %d pairs %s clearly in heat. About one "
            + "pair in twenty would do so by chance alone.",
        shown, pairs, differ == 1 ? "differs" : "differ");
  }

  private static String signed(double value) {
    String text = format("%.1f", Math.abs(value));
    return value < 0 && !text.equals("0.0") ? '\u2212' + text : text;
  }

  private static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
