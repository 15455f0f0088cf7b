package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
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
    try {
      return ISO.parse(withColon(text), OffsetDateTime::from).toInstant();
    } catch (DateTimeException e) {
      // The caller rejects the stamp with its own words.
      return null;
    }
  }

  /** An offset such as +0130 written as +01:30, the one form that the parser takes. */
  private static String withColon(String text) {
    int sign = text.length() - 5;
    boolean compact = sign > 0 && (text.charAt(sign) == '+' || text.charAt(sign) == '-');
    return compact ? text.substring(0, sign + 3) + ':' + text.substring(sign + 3) : text;
  }
}
