package tepidarium.exchange;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * One row of an imported table.
 *
 * @param line number of its first line, from 1
 * @param cells text of each cell by column; no entry for an empty cell
 */
record Row(long line, Map<String, String> cells) {
  @Nullable String text(String column) {
    return cells.get(column);
  }

  String required(String column) {
    String text = text(column);
    if (text == null) {
      throw InvalidInput.missing(column);
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
      throw new InvalidInput(
          column, "must be a whole number, not \"" + text + '"', InputRule.NUMBER.with(text));
    }
  }

  @Nullable Integer count(String column) {
    Long whole = whole(column);
    if (whole != null && (whole < 0 || whole > 1_000_000)) {
      throw InvalidInput.whole(column, 0, 1_000_000);
    }
    return whole == null ? null : whole.intValue();
  }

  /** The number that identifies a lot or a sowing. */
  long number(String column) {
    Long whole = whole(column);
    if (whole == null || whole < 1) {
      throw new InvalidInput(
          column, "must be a whole number of at least 1", InputRule.WHOLE.with(1, null));
    }
    return whole;
  }

  @Nullable Double decimal(String column) {
    String text = text(column);
    try {
      return text == null ? null : Double.valueOf(text);
    } catch (NumberFormatException e) {
      throw InvalidInput.number(column, text);
    }
  }

  double requiredDecimal(String column) {
    required(column);
    return Objects.requireNonNull(decimal(column));
  }

  /** The text of a cell; null for an empty one. */
  static @Nullable String cell(@Nullable Object value) {
    return value == null ? null : value.toString();
  }

  @Nullable Instant optionalInstant(String column) {
    return text(column) == null ? null : instant(column);
  }

  /** An instant, truncated to whole milliseconds as the record stores it. */
  Instant instant(String column) {
    String text = required(column);
    try {
      return OffsetDateTime.parse(text).toInstant().truncatedTo(ChronoUnit.MILLIS);
    } catch (DateTimeException e) {
      throw InvalidInput.instant(column, text);
    }
  }

  @Nullable UUID uuid(String column) {
    String text = text(column);
    try {
      return text == null ? null : UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw new InvalidInput(
          column, "must be a UUID, not \"" + text + '"', InputRule.UUID.with(text));
    }
  }
}
