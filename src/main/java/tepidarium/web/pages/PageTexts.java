package tepidarium.web.pages;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Puts the texts of one language into the HTML of a page. The HTML has {@code {{key}}} where a text
 * belongs. The texts stand in the part {@code html} of {@code texts.en.js} and {@code texts.de.js}
 * in the page's folder, and in {@code shared} for the frame. Texts may contain HTML.
 */
final class PageTexts {
  /** The first language is used if a browser asks for none of them. */
  static final List<String> LANGUAGES = List.of("en", "de");

  private static final Pattern HTML_PART =
      Pattern.compile("\n  html: \\{\n(.*?)\n  },\n", Pattern.DOTALL);
  private static final Pattern ENTRY =
      Pattern.compile("^    (\\w+):\\s+(['\"])((?:\\\\.|(?!\\2).)*)\\2,$", Pattern.MULTILINE);
  private static final Pattern PLACE = Pattern.compile("\\{\\{(\\w+)}}");

  private PageTexts() {}

  /**
   * Replaces each {@code {{key}}}.
   *
   * @param folder where the texts are: the page's folder, or {@code shared} for the frame
   * @throws IllegalStateException if a text is missing
   */
  static String fill(String html, String folder, String language) {
    Map<String, String> texts = read(folder, language);
    return PLACE
        .matcher(html)
        .replaceAll(
            place -> {
              String text = texts.get(place.group(1));
              if (text == null) {
                throw new IllegalStateException(
                    "texts." + language + ".js of " + folder + " has no text " + place.group(1));
              }
              return Matcher.quoteReplacement(text);
            });
  }

  /** A module of texts without the part for the server; any other module as it is. */
  static String withoutHtml(String module) {
    return HTML_PART.matcher(module).replaceFirst("\n");
  }

  private static Map<String, String> read(String folder, String language) {
    Map<String, String> texts = new HashMap<>();
    String file = "/pages/" + folder + "/texts." + language + ".js";
    if (PageTexts.class.getResource(file) == null) {
      return texts; // documents have none of their own
    }
    Matcher part = HTML_PART.matcher(PageFrame.resource(file));
    if (part.find()) {
      ENTRY
          .matcher(part.group(1))
          .results()
          .forEach(entry -> texts.put(entry.group(1), entry.group(3).replaceAll("\\\\(.)", "$1")));
    }
    return texts;
  }
}
