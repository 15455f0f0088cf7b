package tepidarium.heat;

import java.util.Locale;
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

  /** A difference with a larger p can be chance. Common practice, no source. */
  private static final double MAX_P = 0.05;

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
      case MORE, LESS -> difference + "." + chance(pair);
      case NONE_SHOWN ->
          format(
              "No clear difference in heat between %s and %s: likely from %s to %s °C·h a day. The"
                  + " error of their sensors can hide a difference of up to %.1f °C·h a day.",
              a, b, signed(gain.low()), signed(gain.high()), pair.sensorErrorPerDay());
      case WITHIN_SENSOR_ERROR ->
          difference
              + format(
                  ", but their sensors may be wrong by that much (±%.1f °C·h a day). Swap %s, and"
                      + " measure again.",
                  pair.sensorErrorPerDay(), sensors(pair, a, b));
      case ONLY_THESE_CONTAINERS ->
          difference
              + format(
                  ". That can be due to these containers and not to the heat source: add a container"
                      + " to %s.",
                  smaller(pair));
      case CANNOT_TELL -> throw new IllegalStateException("an interval without days");
    };
  }

  private static String tooFew(HeatBench.Pair pair, String a, String b) {
    return format(
        "Too few hours to compare %s and %s: %d were "
            + "measured in both, and at least %d days are needed.",
        a, b, pair.hours(), AutocorrelatedMean.MIN_DAYS);
  }

  /** Names the side with more heat first, whatever the order of the pair. */
  private static String difference(Estimate gain, String a, String b) {
    boolean more = gain.value() > 0;
    return format(
        "%s gave %.1f °C·h a day more than %s", more ? a : b, Math.abs(gain.value()), more ? b : a);
  }

  /** A sentence on whether chance explains the difference; empty between two containers. */
  private static String chance(HeatBench.Pair pair) {
    Permutation permutation = pair.permutation();
    if (permutation == null) {
      return "";
    }
    int a = pair.first().side().places().size();
    int b = pair.second().side().places().size();
    Double p = permutation.p();
    if (Math.min(a, b) < 2) {
      return format(
          " With %d and %d containers it can be due to the containers and not to the heat source:"
              + " add a container to %s.",
          a, b, smaller(pair));
    }
    if (p == null || p > MAX_P) {
      return format(
          " With %d and %d containers that can still be chance: add a container to %s.",
          a, b, smaller(pair));
    }
    return format(
        " With %d and %d containers, chance alone does that in %.1f of 100 cases.", a, b, 100 * p);
  }

  /** The side with fewer containers; both if they have equally many. */
  private static String smaller(HeatBench.Pair pair) {
    int first = pair.first().side().places().size();
    int second = pair.second().side().places().size();
    if (first == second) {
      return "each";
    }
    return (first < second ? pair.first() : pair.second()).side().name();
  }

  private static String sensors(HeatBench.Pair pair, String a, String b) {
    return pair.permutation() == null
        ? format("the sensor of %s with that of %s", a, b)
        : format("a sensor of %s with one of %s", a, b);
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
