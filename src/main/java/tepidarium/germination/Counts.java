package tepidarium.germination;

import tepidarium.reading.InvalidInput;

/** Parses whole numbers. */
final class Counts {
  private Counts() {}

  static int parse(String name, String text) {
    try {
      return Integer.parseInt(text.strip());
    } catch (NumberFormatException e) {
      throw new InvalidInput(name + " must be a whole number, not \"" + text.strip() + '"', e);
    }
  }
}
