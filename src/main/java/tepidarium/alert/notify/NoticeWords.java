package tepidarium.alert.notify;

import java.util.List;
import java.util.Locale;
import tepidarium.reading.LanguageTexts;

/**
 * The texts of notices in one language, from {@code notices.properties} and {@code
 * notices_de.properties}.
 */
final class NoticeWords {
  private final LanguageTexts texts;

  /**
   * Opens the texts of a language.
   *
   * @param locale English for a language that has no texts
   */
  NoticeWords(Locale locale) {
    this.texts = new LanguageTexts("tepidarium.alert.notify.notices", locale);
  }

  Locale locale() {
    return texts.locale();
  }

  /** A text with its values. */
  String say(String key, Object... values) {
    return texts.say(key, values);
  }

  /** The sentences of a text that holds several, separated by {@code |}. */
  List<String> sentences(String key) {
    return List.of(say(key).split("\\|"));
  }
}
