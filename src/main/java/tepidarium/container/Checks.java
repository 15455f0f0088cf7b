package tepidarium.container;

import java.util.Locale;
import tepidarium.reading.InvalidInput;

/** Checks ranges and lengths, and throws {@link InvalidInput} with a uniform message. */
final class Checks {
  private Checks() {}

  static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new InvalidInput(
          name,
          String.format(
              Locale.ROOT, "must be between %s and %s %s, not %s", low, high, unit, value));
    }
  }

  static String text(String name, String value, int longest) {
    String trimmed = value.strip();
    if (trimmed.isEmpty() || trimmed.length() > longest) {
      throw new InvalidInput(name, "must have 1 to " + longest + " characters");
    }
    return trimmed;
  }
}
