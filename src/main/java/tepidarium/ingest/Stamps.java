package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Parses timestamps of devices: ISO 8601 with an offset, epoch seconds, or epoch milliseconds.
 *
 * <p>Numbers below 10^11 are seconds (10^11 s is in the year 5138). Numbers from 10^11 on are
 * milliseconds (10^11 ms is in the year 1973). No valid reading time is ambiguous.
 */
final class Stamps {
  private static final double FIRST_MILLISECONDS = 1e11;

  /** Larger numbers are not times, and would be near an overflow. */
  private static final double LAST_MILLISECONDS = 1e16;

  private static final int MAX_LENGTH = 64;
  private static final String WITH_SECONDS = "0000-00-00T00:00:00Z";
  private static final String WITH_MILLISECONDS = "0000-00-00T00:00:00.000Z";

  private static final DateTimeFormatter ISO =
      new DateTimeFormatterBuilder()
          .parseCaseInsensitive()
          .append(DateTimeFormatter.ISO_LOCAL_DATE)
          .appendPattern("['T'][' ']")
          .append(DateTimeFormatter.ISO_LOCAL_TIME)
          // Lenient: the minutes of the offset may be left out.
          .parseLenient()
          .appendOffsetId()
          .toFormatter(Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT);

  private Stamps() {}

  /** Parses a timestamp without checking its range; null if it cannot be parsed. */
  static @Nullable Instant read(JsonNode stamp) {
    double number = Numbers.of(stamp);
    if (!Double.isNaN(number)) {
      return ofEpoch(number);
    }
    return stamp.isTextual() ? ofIso(stamp.textValue().strip()) : null;
  }

  private static @Nullable Instant ofEpoch(double number) {
    double magnitude = Math.abs(number);
    if (magnitude > LAST_MILLISECONDS) {
      return null;
    }
    return Instant.ofEpochMilli(
        Math.round(magnitude < FIRST_MILLISECONDS ? number * 1000 : number));
  }

  private static @Nullable Instant ofIso(String text) {
    if (text.length() > MAX_LENGTH) {
      return null;
    }
    Instant fast = parseCommonForm(text);
    if (fast != null) {
      return fast;
    }
    try {
      return ISO.parse(withColon(text), OffsetDateTime::from).toInstant();
    } catch (DateTimeException e) {
      // The caller rejects the timestamp and gives the reason.
      return null;
    }
  }

  /**
   * Parses the form that nearly all devices send, with or without milliseconds. Does not use the
   * general parser, which would take most of the processing time of a message. Null for any other
   * form.
   */
  private static @Nullable Instant parseCommonForm(String text) {
    boolean milliseconds = text.length() == WITH_MILLISECONDS.length();
    if (!hasForm(text, milliseconds ? WITH_MILLISECONDS : WITH_SECONDS)) {
      return null;
    }
    int year = number(text, 0, 4);
    int month = number(text, 5, 7);
    int day = number(text, 8, 10);
    int hour = number(text, 11, 13);
    int minute = number(text, 14, 16);
    int second = number(text, 17, 19);
    if (month < 1 || month > 12 || hour > 23 || minute > 59 || second > 59) {
      return null;
    }
    if (day < 1 || day > YearMonth.of(year, month).lengthOfMonth()) {
      return null;
    }
    long days = LocalDate.of(year, month, day).toEpochDay();
    long seconds = ((days * 24 + hour) * 60 + minute) * 60 + second;
    return Instant.ofEpochMilli(seconds * 1000 + (milliseconds ? number(text, 20, 23) : 0));
  }

  /** Whether the text matches the form, in which 0 stands for any digit. */
  private static boolean hasForm(String text, String form) {
    if (text.length() != form.length()) {
      return false;
    }
    for (int i = 0; i < form.length(); i++) {
      char c = text.charAt(i);
      boolean matches = form.charAt(i) == '0' ? c >= '0' && c <= '9' : c == form.charAt(i);
      if (!matches) {
        return false;
      }
    }
    return true;
  }

  private static int number(String text, int from, int to) {
    int number = 0;
    for (int i = from; i < to; i++) {
      number = 10 * number + text.charAt(i) - '0';
    }
    return number;
  }

  /** Rewrites an offset such as +0130 as +01:30, the only form that the parser accepts. */
  private static String withColon(String text) {
    int sign = text.length() - 5;
    boolean compact = sign > 0 && (text.charAt(sign) == '+' || text.charAt(sign) == '-');
    return compact ? text.substring(0, sign + 3) + ':' + text.substring(sign + 3) : text;
  }
}
