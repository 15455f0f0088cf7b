package tepidarium.reading;

import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Thrown for invalid input from a person or another program, with the reason. Any other {@link
 * IllegalArgumentException} is a bug in this program.
 */
public final class InvalidInput extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final @Nullable String field;
  private final @Nullable Rule rule;
  private final transient @Nullable Map<String, ?> figures;

  /**
   * Refuses an input that belongs to no single field.
   *
   * @param words what is wrong and what to enter instead, for the person who entered it
   */
  public InvalidInput(String words) {
    super(words);
    this.field = null;
    this.rule = null;
    this.figures = null;
  }

  /**
   * Refuses one field.
   *
   * @param field its name, as the one who entered it knows it
   * @param words the rest of a sentence that begins with the field, such as "must be above 0"
   */
  public InvalidInput(String field, String words) {
    super(field + ' ' + words);
    this.field = field;
    this.rule = null;
    this.figures = null;
  }

  private InvalidInput(String field, String words, Rule rule, Map<String, ?> figures) {
    super(field + ' ' + words);
    this.field = field;
    this.rule = rule;
    this.figures = figures;
  }

  /** Refuses a field that must be there. */
  public static InvalidInput missing(String field) {
    return new InvalidInput(field, "is missing", Rule.MISSING, Map.of());
  }

  /** Refuses a text that may be empty. */
  public static InvalidInput tooLong(String field, int most) {
    return new InvalidInput(
        field, "must have at most " + most + " characters", Rule.TOO_LONG, Map.of("most", most));
  }

  /** Refuses a text that must not be empty. */
  public static InvalidInput length(String field, int most) {
    return new InvalidInput(
        field, "must have 1 to " + most + " characters", Rule.LENGTH, Map.of("most", most));
  }

  /** Refuses a number that is not whole or lies outside a range. */
  public static InvalidInput whole(String field, int least, int most) {
    return new InvalidInput(
        field,
        "must be a whole number from " + least + " to " + most,
        Rule.WHOLE,
        Map.of("least", least, "most", most));
  }

  /**
   * Refuses a number outside a range.
   *
   * @param unit of the bounds; may be empty
   */
  public static InvalidInput range(String field, double least, double most, String unit) {
    String words = "must be between " + plain(least) + " and " + plain(most) + ' ' + unit;
    return new InvalidInput(
        field, words.strip(), Rule.RANGE, Map.of("least", least, "most", most, "unit", unit));
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
        field, "must be a number, not \"" + value + '"', Rule.NUMBER, Map.of("value", value));
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
        Rule.INSTANT,
        Map.of("value", value));
  }

  /** Refuses an instant after now. */
  public static InvalidInput future(String field, Instant now) {
    return new InvalidInput(
        field,
        "must not lie in the future; it is " + now + " now",
        Rule.FUTURE,
        Map.of("now", now));
  }

  /** Refuses a span whose end {@code to} lies before its start {@code from}. */
  public static InvalidInput order() {
    return new InvalidInput("to", "must not lie before from", Rule.ORDER, Map.of());
  }

  /** Refuses an input because of an earlier exception. */
  public InvalidInput(String words, Throwable cause) {
    super(words, cause);
    this.field = null;
    this.rule = null;
    this.figures = null;
  }

  /** The rule that was broken; null where it is a rule of this field alone. */
  public @Nullable Rule rule() {
    return rule;
  }

  /** The figures of the rule, by their names in {@link Rule}; empty without a rule. */
  public Map<String, ?> figures() {
    return figures == null ? Map.of() : figures;
  }

  /** The name of the refused field; null where the refusal concerns no single field. */
  public @Nullable String field() {
    return field;
  }
}
