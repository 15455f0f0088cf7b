package tepidarium.web.pages;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Puts the HTML of one page into the frame that all pages share: {@code shared/frame.html} with
 * head, menu and foot. The file of a page has two parts with an empty line between them: the page's
 * title, style sheets and script, then its content. The modules that frame and page name are joined
 * to one script.
 */
final class PageFrame {
  private static final String FRAME = "/pages/shared/frame.html";
  private static final String HEAD = "<!-- head of the page -->";
  private static final String MAIN = "<!-- main part of the page -->";

  /** Where the name of the site comes. */
  private static final String SITE = "<!-- name of the site -->";

  /** The entry of the menu that only a service with other sites shows. */
  private static final String MENU_HIDDEN = "<li hidden>";

  private static final String ZONE = "data-zone=\"time-zone\"";

  private static final Pattern MODULE =
      Pattern.compile(" *<script type=\"module\" src=\"([^\"]+)\"></script>\n?");
  private static final String SCRIPT = "  <script type=\"module\" src=\"%s\"></script>\n";
  private static final String HEAD_END = "</head>";

  private PageFrame() {}

  /**
   * Builds the HTML of a page.
   *
   * @param name name of the page's folder, and of the HTML file in it
   * @param language one of {@link PageTexts#LANGUAGES}
   */
  static String page(String name, String language) {
    String[] parts = resource(file(name)).split("\n\n", 2);
    String frame = PageTexts.fill(resource(FRAME), "shared", language);
    String head = frame.replace(HEAD, PageTexts.fill(parts[0].strip(), name, language));
    return MODULE
        .matcher(head)
        .replaceAll("")
        .replace(HEAD_END, SCRIPT.formatted(PageScripts.address(name, language)) + HEAD_END)
        .replace(MAIN, PageTexts.fill(parts[1].strip(), name, language));
  }

  /** The same, with the time zone, the site's name and the menu that follow from the settings. */
  static String page(String name, String language, PageSetup setup) {
    // The settings allow nothing in the name that could be markup.
    String site = setup.site();
    return page(name, language)
        .replace(ZONE, "data-zone=\"" + setup.zone().getId() + '"')
        .replace(SITE, site == null ? "" : "<span class=\"site\">" + site + "</span>")
        .replace(MENU_HIDDEN, setup.otherSites() ? "<li>" : MENU_HIDDEN);
  }

  /** The modules that the frame and a page start, in this order. */
  static List<String> modules(String name) {
    return MODULE
        .matcher(resource(FRAME) + resource(file(name)))
        .results()
        .map(found -> found.group(1))
        .toList();
  }

  static boolean exists(String name) {
    return PageFrame.class.getResource(file(name)) != null;
  }

  private static String file(String name) {
    return "/pages/" + name + '/' + name + ".html";
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
