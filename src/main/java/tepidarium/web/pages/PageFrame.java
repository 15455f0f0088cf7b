package tepidarium.web.pages;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/**
 * Puts the HTML of one page into the frame that all pages share: {@code shared/frame.html} with
 * head, menu and foot. The file of a page has two parts with an empty line between them: the page's
 * title, style sheets and script, then its content.
 */
final class PageFrame {
  private static final String FRAME = "/pages/shared/frame.html";
  private static final String HEAD = "<!-- head of the page -->";
  private static final String MAIN = "<!-- main part of the page -->";

  private PageFrame() {}

  /**
   * Builds the HTML of a page.
   *
   * @param name name of the page's folder, and of the HTML file in it
   * @param language one of {@link PageTexts#LANGUAGES}
   */
  static String page(String name, String language) {
    String[] parts = resource("/pages/" + name + '/' + name + ".html").split("\n\n", 2);
    String frame = PageTexts.fill(resource(FRAME), "shared", language);
    return frame
        .replace(HEAD, PageTexts.fill(parts[0].strip(), name, language))
        .replace(MAIN, PageTexts.fill(parts[1].strip(), name, language));
  }

  /** Reads a text file of the program, in UTF-8. */
  static String resource(String name) {
    try (InputStream stream = PageFrame.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IllegalStateException(name + " is missing from the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name, e);
    }
  }
}
