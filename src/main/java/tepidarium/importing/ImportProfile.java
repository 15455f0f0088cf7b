package tepidarium.importing;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.regex.Pattern;
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
              + " a letter or digit");
    }
  }

  /**
   * Checks the choices before they are kept. Whether a file has the columns is known only when the
   * profile is used.
   *
   * @throws InvalidInput if no choice is made, or one is wrong
   */
  public void check(SettingNames names) {
    if (choices.equals(ImportChoices.NONE)) {
      throw new InvalidInput(
          "the profile " + name + " would be empty. Set what replaces a guess, and save it again");
    }
    if (choices.toString().length() > MAX_CHOICES) {
      throw new InvalidInput(
          "the profile " + name + " is longer than 10,000 characters. Leave columns out");
    }
    choices.options(name, ZoneOffset.UTC, Instant.EPOCH, names);
    choices.columns().values().forEach(meaning -> ColumnSetting.of(meaning, names));
  }
}
