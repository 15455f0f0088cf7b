package tepidarium.importing;

/**
 * One property of a file that was guessed from its content or set by an option.
 *
 * @param what the property, such as "delimiter"
 * @param value the guessed value, in words
 * @param reason why it was guessed
 */
public record Guess(String what, String value, String reason) {}
