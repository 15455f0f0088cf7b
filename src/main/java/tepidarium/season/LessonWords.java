package tepidarium.season;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** Selects the cases of a lesson and formats its figures. */
final class LessonWords {
  private LessonWords() {}

  /** The cases to which a rule applies, the one with the greatest weight first. */
  static <T> List<T> cases(List<T> all, Predicate<T> rule, ToDoubleFunction<T> weight) {
    return all.stream().filter(rule).sorted(Comparator.comparingDouble(weight).reversed()).toList();
  }

  /**
   * The figures of a lesson by name.
   *
   * @param pairs a name, its figure, the next name and so on; a figure that is null is left out
   */
  static Map<String, Object> figures(@Nullable Object... pairs) {
    Map<String, Object> figures = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      Object figure = pairs[i + 1];
      if (figure != null) {
        figures.put(String.valueOf(pairs[i]), figure);
      }
    }
    return figures;
  }

  static String sameFor(int count) {
    return count == 1 ? "" : format(" The same applies to %s.", others(count));
  }

  /** All cases but the first. */
  static String others(int count) {
    return count == 2 ? "one other" : format("%d others", count - 1);
  }

  /** The absolute value of a difference of fractions with its interval, in percentage points. */
  static String points(EstimateWithLimits difference) {
    double low = difference.low() == null ? Double.NaN : difference.low();
    double high = difference.high() == null ? Double.NaN : difference.high();
    boolean positive = difference.value() > 0;
    return format(
        "%.0f percentage points (95 %%: %.0f to %.0f)",
        100 * Math.abs(difference.value()),
        100 * (positive ? low : -high),
        100 * (positive ? high : -low));
  }

  static String percent(double share) {
    return share > 0 && share < 0.01 ? "under 1 %" : format("%.0f %%", 100 * share);
  }

  static String heat(double degreeHours) {
    return amount(degreeHours) + " °C·h";
  }

  static String amount(double value) {
    return format(Math.abs(value) < 100 ? "%.1f" : "%.0f", value);
  }

  /** A name with a capital first letter. */
  static String capital(String name) {
    int first = name.codePointAt(0);
    return Character.toString(Character.toTitleCase(first))
        + name.substring(Character.charCount(first));
  }

  static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
