package tepidarium.reading;

import java.util.Locale;

/**
 * The rules of an input that many fields have. The code and the figures of a refusal let a page say
 * it in another language.
 */
public enum Rule {
  /** The field is missing. */
  MISSING,
  /** A text with more than {@code most} characters. */
  TOO_LONG,
  /** A text without or with more than {@code most} characters. */
  LENGTH,
  /** Not a whole number from {@code least} to {@code most}. */
  WHOLE,
  /** A number not from {@code least} to {@code most}; {@code unit} may be empty. */
  RANGE,
  /** Not a number, but {@code value}. */
  NUMBER,
  /** Not an instant, but {@code value}. */
  INSTANT,
  /** An instant later than {@code now}. */
  FUTURE,
  /** A span whose end lies before its start. */
  ORDER;

  /** The code in the API, such as {@code too-long}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
