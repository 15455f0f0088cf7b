package tepidarium.reading;

import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Thrown for invalid input from a person or another program, with the reason. Any other {@link
 * IllegalArgumentException} is a bug in this program.
 */
public final class InvalidInput extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final @Nullable String field;
  private final transient @Nullable BrokenRule broken;
  private final transient @Nullable RefusedTable table;

  /**
   * Refuses an input that belongs to no single field.
   *
   * @param words what is wrong and what to enter instead, for the person who entered it
   */
  public InvalidInput(String words) {
    this(null, words, null, null);
  }

  /**
   * Refuses an input that belongs to no single field.
   *
   * @param broken the rule that it breaks; null where the pages have no words for it
   */
  public InvalidInput(String words, @Nullable BrokenRule broken) {
    this(null, words, broken, null);
  }

  /**
   * Refuses one field.
   *
   * @param field its name in the API, the setting or the column
   * @param words the rest of a sentence that begins with the field, such as "must be above 0"
   */
  public InvalidInput(String field, String words) {
    this(field, field + ' ' + words, null, null);
  }

  /**
   * Refuses one field.
   *
   * @param broken the rule that it breaks; null where the pages have no words for it
   */
  public InvalidInput(String field, String words, @Nullable BrokenRule broken) {
    this(field, field + ' ' + words, broken, null);
  }

  /** Refuses an input because of an earlier exception. */
  public InvalidInput(String words, Throwable cause) {
    this(null, words, null, cause);
  }

  /** Refuses a table because of some of its lines. */
  public InvalidInput(String words, RefusedTable table) {
    super(words);
    field = null;
    broken = null;
    this.table = table;
  }

  private InvalidInput(
      @Nullable String field,
      String sentence,
      @Nullable BrokenRule broken,
      @Nullable Throwable cause) {
    super(sentence, cause);
    this.field = field;
    this.broken = broken;
    table = null;
  }

  /** Refuses a field that must be there. */
  public static InvalidInput missing(String field) {
    return new InvalidInput(field, "is missing", InputRule.MISSING.with());
  }

  /** Refuses a text that may be empty. */
  public static InvalidInput tooLong(String field, int most) {
    return new InvalidInput(
        field, "must have at most " + most + " characters", InputRule.TOO_LONG.with(most));
  }

  /** Refuses a text that must not be empty. */
  public static InvalidInput length(String field, int most) {
    return new InvalidInput(
        field, "must have 1 to " + most + " characters", InputRule.LENGTH.with(most));
  }

  /** Refuses a number that is not whole or lies outside a range. */
  public static InvalidInput whole(String field, int least, int most) {
    return new InvalidInput(
        field,
        "must be a whole number from " + least + " to " + most,
        InputRule.WHOLE.with(least, most));
  }

  /**
   * Refuses a number outside a range.
   *
   * @param unit of the bounds; may be empty; "K" for a difference of temperatures
   */
  public static InvalidInput range(String field, double least, double most, String unit) {
    String shown = unit.equals("K") ? "°C" : unit;
    String words = "must be between " + plain(least) + " and " + plain(most) + ' ' + shown;
    return new InvalidInput(field, words.strip(), InputRule.RANGE.with(least, most, unit));
  }

  private static String plain(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e9
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.valueOf(value);
  }

  /**
   * Refuses a text that is not a number.
   *
   * @param value the text, cut to a length that can be shown
   */
  public static InvalidInput number(String field, String value) {
    return new InvalidInput(
        field, "must be a number, not \"" + value + '"', InputRule.NUMBER.with(value));
  }

  /**
   * Refuses a text that is not an instant.
   *
   * @param value the text, cut to a length that can be shown
   */
  public static InvalidInput instant(String field, String value) {
    return new InvalidInput(
        field,
        "must be an instant like 2026-03-01T06:00:00Z, not \"" + value + '"',
        InputRule.INSTANT.with(value));
  }

  /** Refuses an instant after now. */
  public static InvalidInput future(String field, Instant now) {
    return new InvalidInput(
        field, "must not lie in the future; it is " + now + " now", InputRule.FUTURE.with(now));
  }

  /** Refuses a span whose end {@code to} lies before its start {@code from}. */
  public static InvalidInput order() {
    return new InvalidInput("to", "must not lie before from", InputRule.ORDER.with());
  }

  /** Refuses a span whose end {@code to} does not lie after its start {@code from}. */
  public static InvalidInput after(String to) {
    return new InvalidInput(to, "must lie after from", InputRule.AFTER.with());
  }

  /** Refuses a span that is too long. */
  public static InvalidInput span(int days) {
    return new InvalidInput(
        "from", "must lie at most " + days + " days before to", InputRule.SPAN.with(days));
  }

  /** Refuses one more of something that has a greatest number, such as people. */
  public static InvalidInput full(String what, int most) {
    return new InvalidInput(
        "there are " + most + ' ' + what + " already. Remove one first", InputRule.FULL.with(most));
  }

  /** Refuses the id of something that does not exist, such as a container. */
  public static InvalidInput notFound(String what, String id) {
    return new InvalidInput("there is no " + what + " \"" + id + '"', InputRule.NOT_FOUND.with(id));
  }

  /** The rule that was broken; null where the pages have no words for it. */
  public @Nullable BrokenRule broken() {
    return broken;
  }

  /** The lines of a table that are wrong; null where no table was refused. */
  public @Nullable RefusedTable table() {
    return table;
  }

  /** The name of the refused field; null where the refusal concerns no single field. */
  public @Nullable String field() {
    return field;
  }
}
