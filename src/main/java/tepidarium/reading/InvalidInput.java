package tepidarium.reading;

import org.jspecify.annotations.Nullable;

/**
 * Thrown for invalid input from a person or another program, with the reason. Any other {@link
 * IllegalArgumentException} is a bug in this program.
 */
public final class InvalidInput extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final @Nullable String field;

  /**
   * Refuses an input that belongs to no single field.
   *
   * @param words what is wrong and what to enter instead, for the person who entered it
   */
  public InvalidInput(String words) {
    super(words);
    this.field = null;
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
  }

  /** Refuses an input because of an earlier exception. */
  public InvalidInput(String words, Throwable cause) {
    super(words, cause);
    this.field = null;
  }

  /** The name of the refused field; null where the refusal concerns no single field. */
  public @Nullable String field() {
    return field;
  }
}
