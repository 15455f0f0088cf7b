package tepidarium.container;

import java.util.Locale;

/** Says in one place how a value that makes no sense is refused. */
final class Checks {
  private Checks() {}

  static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "%s must be between %s and %s %s, not %s",
              name,
              low,
              high,
              unit,
              value));
    }
  }

  static String text(String name, String value, int longest) {
    String trimmed = value.strip();
    if (trimmed.isEmpty() || trimmed.length() > longest) {
      throw new IllegalArgumentException(name + " must have 1 to " + longest + " characters");
    }
    return trimmed;
  }
}
