package tepidarium.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.ConfidenceInterval;

/** Converts figures to values that JSON can hold; an infinite number becomes null. */
public final class JsonValues {
  private JsonValues() {}

  /** Both ends of an interval with finite ends. */
  public static List<Double> pair(ConfidenceInterval limits) {
    return List.of(limits.low(), limits.high());
  }

  /** Both ends of an interval; an infinite end becomes null. */
  public static List<@Nullable Double> ends(ConfidenceInterval limits) {
    List<@Nullable Double> ends = new ArrayList<>();
    ends.add(finite(limits.low()));
    ends.add(finite(limits.high()));
    return ends;
  }

  public static @Nullable Double finite(double value) {
    return Double.isFinite(value) ? value : null;
  }

  /** The name of an enum constant in lower case. */
  public static String lower(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  /** The name of an enum constant in lower case, its words joined by hyphens. */
  public static String hyphenated(Enum<?> value) {
    return lower(value).replace('_', '-');
  }
}
