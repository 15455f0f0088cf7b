package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.regex.Pattern;

/**
 * Parses numbers of devices: JSON numbers, or text such as {@code "30.2"}. Stricter than Java,
 * which also accepts {@code 0x1p3}, {@code 1d} and {@code NaN}.
 */
final class Numbers {
  /** Maximum length of a number in characters; longer text is not a measurement. */
  private static final int MAX_LENGTH = 64;

  private static final Pattern FORM =
      Pattern.compile("[+-]?(?:[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?");

  private Numbers() {}

  /** Returns the number, which may be infinite; NaN if the text is not a number. */
  static double of(JsonNode node) {
    if (node.isNumber()) {
      return node.doubleValue();
    }
    return node.isTextual() ? of(node.textValue()) : Double.NaN;
  }

  /** Returns the number, which may be infinite; NaN if the text is not a number. */
  static double of(String text) {
    String stripped = text.strip();
    return stripped.length() <= MAX_LENGTH && FORM.matcher(stripped).matches()
        ? Double.parseDouble(stripped)
        : Double.NaN;
  }
}
