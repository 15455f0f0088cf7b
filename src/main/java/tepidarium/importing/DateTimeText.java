package tepidarium.importing;

import java.util.List;
import java.util.Locale;

/**
 * Reads a date, a time of day, or both from the text of a cell into its fields. One object is
 * reused for all cells, which saves memory. Not thread-safe.
 */
final class DateTimeText {
  private static final List<String> MONTHS =
      List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");

  /** The three parts of the date in the order of the text, and their numbers of digits. */
  final int[] part = new int[3];

  final int[] digits = new int[3];

  /** Index of the part that was written as the name of a month; -1 if none was. */
  int monthPart;

  boolean hasDate;
  boolean hasTime;

  /** Time of day, ms. */
  int dayMs;

  /** Whether the time has AM or PM. */
  boolean twelveHours;

  boolean hasOffset;
  int offsetMs;

  private String text = "";
  private int at;

  /** Reads a cell; returns whether all of it is a date, a time, or both. */
  boolean read(String cell) {
    text = cell;
    at = 0;
    hasDate = false;
    hasTime = false;
    hasOffset = false;
    twelveHours = false;
    dayMs = 0;
    skipSpaces();
    if (at == text.length()) {
      return false;
    }
    if (!startsWithTime()) {
      if (!readDate()) {
        return false;
      }
      hasDate = true;
      if (peek() == 'T' || peek() == ',') {
        at++;
      }
      skipSpaces();
      if (at == text.length()) {
        return true;
      }
    }
    return readTime() && readOffset() && at == text.length();
  }

  private boolean startsWithTime() {
    int colon = text.indexOf(':');
    return colon > 0 && colon - at <= 2 && isDigit(peek());
  }

  private boolean readDate() {
    monthPart = -1;
    for (int i = 0; i < 3; i++) {
      if (!(isDigit(peek()) ? readNumber(i) : readMonth(i))) {
        return false;
      }
      if (i == 0 && digits[0] == 8) {
        return splitCompact();
      }
      if (i < 2 && !skipSeparator()) {
        return false;
      }
    }
    return digits[2] == 4 || digits[2] == 2 || (digits[0] == 4 && digits[2] == 1);
  }

  /** Splits 20260301 into year, month and day. */
  private boolean splitCompact() {
    int whole = part[0];
    part[0] = whole / 10_000;
    part[1] = whole / 100 % 100;
    part[2] = whole % 100;
    digits[0] = 4;
    digits[1] = 2;
    digits[2] = 2;
    return true;
  }

  private boolean readNumber(int index) {
    int start = at;
    int value = 0;
    while (isDigit(peek()) && at - start < 9) {
      value = value * 10 + text.charAt(at++) - '0';
    }
    part[index] = value;
    digits[index] = at - start;
    return digits[index] <= 2 || digits[index] == 4 || (digits[index] == 8 && index == 0);
  }

  private boolean readMonth(int index) {
    int start = at;
    while (Character.isLetter(peek())) {
      at++;
    }
    if (at - start < 3 || monthPart >= 0) {
      return false;
    }
    monthPart = index;
    part[index] = MONTHS.indexOf(text.substring(start, start + 3).toLowerCase(Locale.ROOT)) + 1;
    digits[index] = 0;
    return part[index] > 0;
  }

  private boolean skipSeparator() {
    char separator = peek();
    if (separator != '-'
        && separator != '/'
        && separator != '.'
        && separator != ' '
        && separator != ',') {
      return false;
    }
    at++;
    skipSpaces();
    return true;
  }

  private boolean readTime() {
    int hour = twoDigits();
    int minute = peek() == ':' ? next() : -1;
    if (hour < 0 || minute < 0) {
      return false;
    }
    hasTime = true;
    int ms = 0;
    if (peek() == ':') {
      int second = next();
      if (second < 0 || second > 59) {
        return false;
      }
      ms = second * 1000 + fraction();
    }
    skipSpaces();
    hour = toTwentyFour(hour);
    dayMs = (hour * 60 + minute) * 60_000 + ms;
    return hour >= 0 && hour < 24 && minute < 60;
  }

  private int next() {
    at++;
    return twoDigits();
  }

  private int twoDigits() {
    int start = at;
    int value = 0;
    while (isDigit(peek()) && at - start < 2) {
      value = value * 10 + text.charAt(at++) - '0';
    }
    return at == start ? -1 : value;
  }

  /** Reads decimals of a second; those beyond milliseconds are cut off. */
  private int fraction() {
    if (peek() != '.' && peek() != ',') {
      return 0;
    }
    at++;
    int ms = 0;
    for (int weight = 100; isDigit(peek()); weight /= 10) {
      ms += (text.charAt(at++) - '0') * weight;
    }
    return ms;
  }

  /** Applies AM or PM, if it follows; -1 if the hour does not fit it. */
  private int toTwentyFour(int hour) {
    char half = Character.toLowerCase(peek());
    if (half != 'a' && half != 'p') {
      return hour;
    }
    for (String word : List.of("m", ".m.", ". m.")) {
      if (text.regionMatches(true, at + 1, word, 0, word.length())) {
        at += 1 + word.length();
        skipSpaces();
        twelveHours = true;
        return hour < 1 || hour > 12 ? -1 : hour % 12 + (half == 'p' ? 12 : 0);
      }
    }
    return -1;
  }

  private boolean readOffset() {
    if (at == text.length()) {
      return true;
    }
    if (peek() == 'Z' || peek() == 'z') {
      at++;
      hasOffset = true;
      offsetMs = 0;
      return true;
    }
    if (text.startsWith("UTC", at) || text.startsWith("GMT", at)) {
      at += 3;
      hasOffset = true;
      offsetMs = 0;
    }
    return at == text.length() || readSignedOffset();
  }

  private boolean readSignedOffset() {
    int sign = peek() == '+' ? 1 : peek() == '-' || peek() == '\u2212' ? -1 : 0;
    if (sign == 0) {
      return false;
    }
    int hours = next();
    if (peek() == ':') {
      at++;
    }
    int minutes = at < text.length() ? twoDigits() : 0;
    hasOffset = true;
    offsetMs = sign * (hours * 60 + minutes) * 60_000;
    return hours >= 0 && hours <= 18 && minutes >= 0 && minutes < 60;
  }

  private char peek() {
    return at < text.length() ? text.charAt(at) : '\0';
  }

  /** Skips plain and non-breaking spaces, but no tab: that divides cells. */
  private void skipSpaces() {
    while (peek() == ' ' || peek() == '\u00a0' || peek() == '\u202f') {
      at++;
    }
  }

  private static boolean isDigit(char character) {
    return character >= '0' && character <= '9';
  }
}
