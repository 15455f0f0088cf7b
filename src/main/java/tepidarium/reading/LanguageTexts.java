package tepidarium.reading;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/**
 * The texts of one language, from a properties file for each language. Values are formatted by
 * {@link MessageFormat}.
 */
public final class LanguageTexts {
  private final Locale locale;
  private final ResourceBundle texts;

  /**
   * Opens the texts of a language.
   *
   * @param file name of the English file without its ending, such as {@code
   *     tepidarium.alert.notify.notices}
   * @param locale English for a language that has no texts
   */
  public LanguageTexts(String file, Locale locale) {
    this.locale = locale;
    this.texts =
        ResourceBundle.getBundle(
            file,
            locale,
            ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
  }

  public Locale locale() {
    return locale;
  }

  /**
   * A text with its values.
   *
   * @throws java.util.MissingResourceException for an unknown key
   */
  public String say(String key, Object... values) {
    return new MessageFormat(texts.getString(key), locale).format(values);
  }
}
