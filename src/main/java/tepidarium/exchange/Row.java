package tepidarium.exchange;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/**
 * One row of a table that was read.
 *
 * @param line where it begins, from 1
 * @param cells by column; an empty one is absent
 */
record Row(long line, Map<String, String> cells) {
  @Nullable String text(String column) {
    return cells.get(column);
  }

  String needed(String column) {
    String text = text(column);
    if (text == null) {
      throw new InvalidInput(column, "is missing");
    }
    return text;
  }

  @Nullable Long whole(String column) {
    String text = text(column);
    if (text == null) {
      return null;
    }
    try {
      return Long.valueOf(text);
    } catch (NumberFormatException e) {
      throw new InvalidInput(column + " must be a whole number, not \"" + text + '"', e);
    }
  }

  @Nullable Integer count(String column) {
    Long whole = whole(column);
    if (whole != null && (whole < 0 || whole > 1_000_000)) {
      throw new InvalidInput(column, "must be from 0 to 1000000, not " + whole);
    }
    return whole == null ? null : whole.intValue();
  }

  /** A number that something is known by. */
  long number(String column) {
    Long whole = whole(column);
    if (whole == null || whole < 1) {
      throw new InvalidInput(column, "must be a whole number from 1 on");
    }
    return whole;
  }

  @Nullable Double decimal(String column) {
    String text = text(column);
    try {
      return text == null ? null : Double.valueOf(text);
    } catch (NumberFormatException e) {
      throw new InvalidInput(column + " must be a number, not \"" + text + '"', e);
    }
  }

  Instant instant(String column) {
    String text = needed(column);
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException e) {
      throw new InvalidInput(
          column + " must be an instant like 2026-03-01T06:00:00Z, not \"" + text + '"', e);
    }
  }

  @Nullable UUID uuid(String column) {
    String text = text(column);
    try {
      return text == null ? null : UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw new InvalidInput(column + " must be a UUID, not \"" + text + '"', e);
    }
  }
}
