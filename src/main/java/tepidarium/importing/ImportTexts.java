package tepidarium.importing;

import java.util.Arrays;
import java.util.Locale;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.LanguageTexts;

/**
 * The sentences of an import. They name its settings as the person knows them who set them: by the
 * options of the command, such as {@code --zone}, or by the fields of the page, such as "Time
 * zone", in the language of the page.
 */
public final class ImportTexts {
  /** For the command, in English. */
  public static final ImportTexts OPTIONS = new ImportTexts(Locale.ENGLISH, true);

  private final LanguageTexts texts;
  private final boolean namesOptions;

  /** A setting that replaces a guess. */
  enum Setting {
    SENSOR("sensor"),
    ZONE("zone"),
    DATE_ORDER("date-order"),
    DECIMAL("decimal"),
    DELIMITER("delimiter"),
    HEADER_LINE("header-line"),
    ENCODING("encoding"),
    COLUMNS("columns");

    private final String key;

    Setting(String key) {
      this.key = key;
    }

    private String option() {
      return this == COLUMNS ? "--column" : "--" + key;
    }
  }

  private ImportTexts(Locale locale, boolean namesOptions) {
    this.texts = new LanguageTexts("tepidarium.importing.import", locale);
    this.namesOptions = namesOptions;
  }

  /**
   * For the page.
   *
   * @param locale English for a language that has no texts
   */
  public static ImportTexts fields(Locale locale) {
    return new ImportTexts(locale, false);
  }

  /** A sentence with its values; numbers are written without separators of thousands. */
  String say(String key, Object... values) {
    return texts.say(key, Arrays.stream(values).map(String::valueOf).toArray());
  }

  InvalidInput refusal(String key, Object... values) {
    return new InvalidInput(say("refused." + key, values));
  }

  Guess guess(String what, String value, String reason) {
    return new Guess(say("what." + what), value, reason);
  }

  String of(Setting setting) {
    return namesOptions ? setting.option() : say("setting.field", field(setting));
  }

  /** A setting with a value: {@code --zone Mars}, or Mars in "Time zone". */
  String of(Setting setting, String value) {
    return namesOptions
        ? setting.option() + ' ' + value
        : say("setting.field.value", field(setting), value);
  }

  /** The reason of a guess that a setting replaces. */
  String setBy(Setting setting) {
    return say(namesOptions ? "setting.option.by" : "setting.field.by", of(setting));
  }

  private String field(Setting setting) {
    return say("field." + setting.key);
  }
}
