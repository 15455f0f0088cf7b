package tepidarium.importing;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.regex.Pattern;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** Choices for the files of one logger, kept under a name and used again. */
public record ImportProfile(String name, ImportChoices choices) {
  private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} ._()-]{0,39}");
  private static final int MAX_CHOICES = 10_000;

  public ImportProfile {
    requireName(name);
  }

  /**
   * Checks a name.
   *
   * @throws InvalidInput unless it has 1 to 40 letters, digits, spaces and . _ ( ) -
   */
  public static void requireName(String name) {
    if (!NAME.matcher(name).matches()) {
      throw new InvalidInput(
          "the name of a profile has 1 to 40 letters, digits, spaces and . _ ( ) - and starts with"
              + " a letter or digit",
          InputRule.PROFILE_NAME.with(40));
    }
  }

  /**
   * Checks the choices before they are kept. Whether a file has the columns is known only when the
   * profile is used.
   *
   * @throws InvalidInput if no choice is made, or one is wrong
   */
  public void check(ImportTexts texts) {
    if (choices.equals(ImportChoices.NONE)) {
      throw texts.refusal("profile-empty", name);
    }
    if (choices.toString().length() > MAX_CHOICES) {
      throw texts.refusal("profile-long", name);
    }
    choices.options(name, ZoneOffset.UTC, Instant.EPOCH, texts);
    choices.columns().values().forEach(meaning -> ColumnSetting.of(meaning, texts));
  }
}
