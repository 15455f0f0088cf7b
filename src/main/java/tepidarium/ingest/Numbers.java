package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.regex.Pattern;

/**
 * Numbers as devices write them: JSON numbers, or text such as {@code "30.2"}. Stricter than Java,
 * which would also take {@code 0x1p3}, {@code 1d} and {@code NaN}.
 */
final class Numbers {
  /** Longer text is no measurement, and not worth the work. */
  private static final int LONGEST = 64;

  private static final Pattern FORM =
      Pattern.compile("[+-]?(?:[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?");

  private Numbers() {}

  /** The number, perhaps infinite, or NaN where there is none. */
  static double of(JsonNode node) {
    if (node.isNumber()) {
      return node.doubleValue();
    }
    return node.isTextual() ? of(node.textValue()) : Double.NaN;
  }

  /** The number, perhaps infinite, or NaN where there is none. */
  static double of(String text) {
    String bare = text.strip();
    return bare.length() <= LONGEST && FORM.matcher(bare).matches()
        ? Double.parseDouble(bare)
        : Double.NaN;
  }
}
