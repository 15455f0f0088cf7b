package tepidarium.alert.notify;

import java.text.MessageFormat;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;

/**
 * The texts of notices in one language, from {@code notices.properties} and {@code
 * notices_de.properties}. Values are formatted by {@link MessageFormat}.
 */
final class NoticeWords {
  private static final String FILE = "tepidarium.alert.notify.notices";

  private final Locale locale;
  private final ResourceBundle texts;

  /**
   * Opens the texts of a language.
   *
   * @param locale English for a language that has no texts
   */
  NoticeWords(Locale locale) {
    this.locale = locale;
    this.texts =
        ResourceBundle.getBundle(
            FILE,
            locale,
            ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
  }

  Locale locale() {
    return locale;
  }

  /**
   * A text with its values.
   *
   * @throws java.util.MissingResourceException for an unknown key
   */
  String say(String key, Object... values) {
    return new MessageFormat(texts.getString(key), locale).format(values);
  }

  /** The sentences of a text that holds several, separated by {@code |}. */
  List<String> sentences(String key) {
    return List.of(say(key).split("\\|"));
  }
}
