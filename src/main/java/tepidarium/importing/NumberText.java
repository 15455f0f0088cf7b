package tepidarium.importing;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Reads numbers and markers of missing values from the text of cells. */
final class NumberText {
  private static final Set<String> MISSING =
      Set.of(
          "",
          "-",
          "--",
          "---",
          "----",
          "n/a",
          "na",
          "nan",
          "null",
          "none",
          "error",
          "err",
          "fail",
          "fault",
          "ol",
          "overrange",
          "underrange",
          "invalid",
          "missing",
          "no data",
          "nodata",
          "disconnected",
          "*",
          "**",
          "***",
          "?",
          "#n/a",
          "#wert!",
          "#value!",
          "inf",
          "-inf");

  /** A longer text is not a number. */
  private static final int MAX_LENGTH = 60;

  private static final Pattern LONG_NUMBER =
      Pattern.compile("[+-]?\\d+(\\.\\d*)?([eE][+-]?\\d{1,3})?");

  private static final double[] POWERS = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
  };

  private NumberText() {}

  /**
   * Whether the cell marks a missing value. Loggers commonly write -999 and -9999 too (common
   * practice, no source).
   */
  static boolean isMissing(String cell) {
    String text = cell.strip();
    return text.isEmpty()
        || (text.length() <= 12 && MISSING.contains(text.toLowerCase(Locale.ROOT)))
        || text.startsWith("###")
        || text.equals("-999")
        || text.equals("-9999")
        || text.equals("-999.0")
        || text.equals("-999,0");
  }

  /** Where the number at the start of the cell ends; 0 if there is none. */
  static int end(String cell) {
    int at = 0;
    boolean digit = false;
    for (; at < cell.length(); at++) {
      char character = cell.charAt(at);
      if (character >= '0' && character <= '9') {
        digit = true;
      } else if (character != '.'
          && character != ','
          && !((character == '-' || character == '+') && at == 0)) {
        break;
      }
    }
    return digit ? at : 0;
  }

  /**
   * Converts a number to the nearest double. Up to 15 digits, the digits and the power of ten are
   * both exact, so only the division rounds. Java converts more digits and exponents.
   *
   * @param decimal the decimal separator; the other of comma and point separates thousands
   * @return NaN if the text is not a number
   */
  static double parse(String text, char decimal) {
    int length = text.length();
    boolean negative = length > 0 && text.charAt(0) == '-';
    int at = negative || (length > 0 && text.charAt(0) == '+') ? 1 : 0;
    long digits = 0;
    int count = 0;
    int decimals = -1;
    int group = -1;
    for (; at < length; at++) {
      char character = text.charAt(at);
      if (character >= '0' && character <= '9') {
        digits = digits * 10 + character - '0';
        count++;
        decimals += decimals >= 0 ? 1 : 0;
        group += group >= 0 ? 1 : 0;
      } else if ((character == 'e' || character == 'E') && count > 0) {
        return converted(text, decimal);
      } else if (decimals >= 0 || (group >= 0 && group != 3)) {
        return Double.NaN;
      } else if (character == decimal) {
        decimals = 0;
        group = -1;
      } else if ((character == ',' || character == '.') && count > 0 && count <= 12) {
        group = 0;
      } else {
        return Double.NaN;
      }
    }
    if (count == 0 || (group >= 0 && group != 3)) {
      return Double.NaN;
    }
    if (count > 15) {
      return converted(text, decimal);
    }
    double value = decimals > 0 ? digits / POWERS[decimals] : digits;
    return negative ? -value : value;
  }

  /** Converts a number that has an exponent or many digits; NaN if the text is not a number. */
  private static double converted(String text, char decimal) {
    String plain = text.replace(decimal == '.' ? "," : ".", "").replace(decimal, '.');
    return plain.length() <= MAX_LENGTH && LONG_NUMBER.matcher(plain).matches()
        ? Double.parseDouble(plain)
        : Double.NaN;
  }
}
