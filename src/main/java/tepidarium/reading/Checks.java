package tepidarium.reading;

import java.util.Locale;

/** Checks ranges and lengths, and throws {@link InvalidInput} with a uniform message. */
public final class Checks {
  private Checks() {}

  public static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new InvalidInput(
          name,
          String.format(
              Locale.ROOT, "must be between %s and %s %s, not %s", low, high, unit, value));
    }
  }

  public static String text(String name, String value, int longest) {
    String trimmed = value.strip();
    if (trimmed.isEmpty() || trimmed.length() > longest) {
      throw new InvalidInput(name, "must have 1 to " + longest + " characters");
    }
    return trimmed;
  }
}
