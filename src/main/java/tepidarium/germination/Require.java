package tepidarium.germination;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** Checks input values; throws {@link InvalidInput} for an invalid one. */
final class Require {
  static final int MAX_SEEDS = 1_000_000;

  private Require() {}

  static String text(String name, @Nullable String value, int longest) {
    String text = note(name, value, longest);
    if (text == null) {
      throw InvalidInput.length(name, longest);
    }
    return text;
  }

  /** An optional text, stripped; null if it is missing or blank. */
  static @Nullable String note(String name, @Nullable String value, int longest) {
    String text = value == null ? "" : value.strip();
    if (text.length() > longest) {
      throw InvalidInput.tooLong(name, longest);
    }
    boolean hasControls = text.chars().anyMatch(c -> Character.isISOControl(c) && c != '\n');
    if (hasControls) {
      throw new InvalidInput(
          name, "has characters that cannot be shown", InputRule.CHARACTERS.with(null, null));
    }
    return text.isEmpty() ? null : text;
  }

  static void count(String name, @Nullable Integer value, int least) {
    if (value != null && (value < least || value > MAX_SEEDS)) {
      throw InvalidInput.whole(name, least, MAX_SEEDS);
    }
  }

  static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw InvalidInput.range(name, low, high, unit);
    }
  }
}
