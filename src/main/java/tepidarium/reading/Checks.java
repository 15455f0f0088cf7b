package tepidarium.reading;

/** Checks ranges and lengths, and throws {@link InvalidInput} with a uniform message. */
public final class Checks {
  private Checks() {}

  public static void within(String name, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw InvalidInput.range(name, low, high, unit);
    }
  }

  public static String text(String name, String value, int longest) {
    String trimmed = value.strip();
    if (trimmed.isEmpty() || trimmed.length() > longest) {
      throw InvalidInput.length(name, longest);
    }
    return trimmed;
  }

  public static void noControls(String name, String value) {
    if (value.chars().anyMatch(Character::isISOControl)) {
      throw new InvalidInput(
          name, "must not have control characters", InputRule.CHARACTERS.with(null, null));
    }
  }
}
