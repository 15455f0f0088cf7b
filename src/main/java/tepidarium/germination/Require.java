package tepidarium.germination;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** Says in one place how a value that makes no sense is refused. */
final class Require {
  static final int MOST_SEEDS = 1_000_000;

  private Require() {}

  static String text(String name, @Nullable String value, int longest) {
    String kept = note(name, value, longest);
    if (kept == null) {
      throw new InvalidInput(name, "must have 1 to " + longest + " characters");
    }
    return kept;
  }

  /** A text that may be absent; blank counts as absent. */
  static @Nullable String note(String name, @Nullable String value, int longest) {
    String kept = value == null ? "" : value.strip();
    if (kept.length() > longest) {
      throw new InvalidInput(name, "must have at most " + longest + " characters");
    }
    boolean unprintable = kept.chars().anyMatch(c -> Character.isISOControl(c) && c != '\n');
    if (unprintable) {
      throw new InvalidInput(name, "has characters that cannot be shown");
    }
    return kept.isEmpty() ? null : kept;
  }

  static void count(String name, @Nullable Integer value, int least) {
    if (value != null && (value < least || value > MOST_SEEDS)) {
      throw new InvalidInput(
          name, "must be a whole number from " + least + " to " + MOST_SEEDS + ", not " + value);
    }
  }

  static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new InvalidInput(
          name,
          String.format(Locale.ROOT, "must be between %s and %s %s", low, high, unit).strip());
    }
  }
}
