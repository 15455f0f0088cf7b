package tepidarium.heat;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.stats.GroupMeans.Permutation;

/** What a comparison of two sides comes to, judged by the heat of a day, and in plain words. */
public enum BenchFinding {
  /** The first gave more heat. */
  MORE,
  /** The first gave less heat. */
  LESS,
  /** No difference that these hours can show. */
  NONE_SHOWN,
  /** There is a difference, but the sensors may be off by as much. */
  WITHIN_SENSOR_ERROR,
  /** There is a difference between these containers, but none that can be laid to the source. */
  ONLY_THESE_CONTAINERS,
  /** Too few hours. */
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

  /** One pair in a sentence or two. */
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
              "No difference in heat between %s and %s that these hours can show: it is %s °C·h a"
                  + " day (95 %%: %s to %s).",
              a, b, signed(gain.value()), signed(gain.low()), signed(gain.high()));
      case WITHIN_SENSOR_ERROR ->
          difference
              + format(
                  ", but their sensors may be off by as much (±%.1f °C·h a day): swap the sensors"
                      + " to find out.",
                  pair.sensorErrorPerDay());
      case ONLY_THESE_CONTAINERS ->
          difference + ", but only these containers can be said to differ." + unit(pair);
      case CANNOT_TELL -> throw new IllegalStateException("an interval without days");
    };
  }

  private static String tooFew(HeatBench.Pair pair, String a, String b) {
    return format(
        "These hours cannot tell %s and %s apart: %d were measured in both, and at least %d days of"
            + " them are needed.",
        a, b, pair.hours(), AutocorrelatedMean.FEWEST_DAYS);
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

  /** What the number of containers allows to be said. */
  private static String unit(HeatBench.Pair pair) {
    Permutation permutation = pair.permutation();
    if (permutation == null) {
      return "";
    }
    int a = pair.first().side().places().size();
    int b = pair.second().side().places().size();
    if (Math.min(a, b) < 2) {
      return format(
          " The container is the unit: with %d against %d, a source cannot be told from the place"
              + " it warms.",
          a, b);
    }
    return format(
        " The container is the unit: with %d against %d no permutation p can be under %.3f%s.",
        a, b, permutation.leastP(), itIs(permutation.p()));
  }

  private static String itIs(@Nullable Double p) {
    return p == null ? "" : format("; here it is %.3f", p);
  }

  /** The whole comparison in a sentence. */
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
        "%s of %d pairs %s in heat by more than chance and sensors explain. Of so many, about one"
            + " in twenty would seem to differ by chance alone.",
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
