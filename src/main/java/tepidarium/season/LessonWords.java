package tepidarium.season;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/** Picks what a lesson is about, and says figures in words. */
final class LessonWords {
  private LessonWords() {}

  /** The ones that a rule is about, the worst first. */
  static <T> List<T> found(List<T> all, Predicate<T> rule, ToDoubleFunction<T> weight) {
    return all.stream().filter(rule).sorted(Comparator.comparingDouble(weight).reversed()).toList();
  }

  static String soWere(int found) {
    return found == 1 ? "" : format(" So were %s.", others(found));
  }

  /** All but the first of so many. */
  static String others(int found) {
    return found == 2 ? "one other" : format("%d others", found - 1);
  }

  /** A difference of fractions without its sign, with its interval. */
  static String points(Interval difference) {
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

  /** A name at the start of a sentence. */
  static String capital(String name) {
    int first = name.codePointAt(0);
    return Character.toString(Character.toTitleCase(first))
        + name.substring(Character.charCount(first));
  }

  static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
