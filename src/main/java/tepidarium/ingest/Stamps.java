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
 * Time stamps as devices write them: ISO 8601 with an offset, epoch seconds, or epoch milliseconds.
 *
 * <p>The two epochs are told apart by magnitude: below 10^11 a number counts seconds (which reach
 * the year 5138 there), from 10^11 on milliseconds (which leave 1973 there), so that neither can be
 * taken for the other in any year that a reading can have.
 */
final class Stamps {
  private static final double FIRST_MILLISECONDS = 1e11;

  /** Further than this a number is no time in milliseconds, and near overflow. */
  private static final double LAST_MILLISECONDS = 1e16;

  private static final int LONGEST = 64;
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

  /** The instant that a stamp tells, sane or not; null where it cannot be read. */
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
    if (text.length() > LONGEST) {
      return null;
    }
    Instant usual = ofUsual(text);
    if (usual != null) {
      return usual;
    }
    try {
      return ISO.parse(withColon(text), OffsetDateTime::from).toInstant();
    } catch (DateTimeException e) {
      // The caller rejects the stamp with its own words.
      return null;
    }
  }

  /**
   * The form that nearly all devices send, with or without milliseconds, read without the parser,
   * which would take most of the time that a message costs; null where anything is unusual.
   */
  private static @Nullable Instant ofUsual(String text) {
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

  /** Whether the text is like the form, which has a 0 for any digit. */
  private static boolean hasForm(String text, String form) {
    if (text.length() != form.length()) {
      return false;
    }
    for (int i = 0; i < form.length(); i++) {
      char sent = text.charAt(i);
      boolean fits = form.charAt(i) == '0' ? sent >= '0' && sent <= '9' : sent == form.charAt(i);
      if (!fits) {
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

  /** An offset such as +0130 written as +01:30, the one form that the parser takes. */
  private static String withColon(String text) {
    int sign = text.length() - 5;
    boolean compact = sign > 0 && (text.charAt(sign) == '+' || text.charAt(sign) == '-');
    return compact ? text.substring(0, sign + 3) + ':' + text.substring(sign + 3) : text;
  }
}
