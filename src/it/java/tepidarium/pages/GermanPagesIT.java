package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/** The pages of a small season as a German browser shows them, and the switch between languages. */
class GermanPagesIT {
  private static final int PHONE = 390;
  private static final int DESK = 1280;

  /**
   * The English texts that stand on a page, of those that differ in German. A text with values is
   * cut at them. Short pieces are left out: they can be part of a German word or of a name.
   */
  private static final String ENGLISH_ON_PAGE =
      """
      async (folders) => {
        const pieces = (text) =>
          typeof text === 'object' ? Object.values(text).flatMap(pieces)
          : typeof text === 'function' ? text.toString().replace(/^.*?=>/s, '').split(/`|\\$\\{[^}]*\\}/)
          : [text.replace(/<[^>]*>/g, '')];
        const long = (text) => text.replace(/[^\\p{L}]/gu, '').length > 12;
        const shown = document.body.innerText.replace(/\\s+/g, ' ');
        const found = [];
        for (const folder of folders) {
          const of = async (language) =>
            pieces((await import(`/${folder}/texts.${language}.js`)).default).map((one) => one.replace(/\\s+/g, ' ').trim());
          const german = await of('de');
          for (const text of await of('en')) {
            if (long(text) && shown.includes(text) && !german.some((one) => one.includes(text))) found.push(text);
          }
        }
        return found;
      }
      """;

  /** What a page shows that holds a common English word, except in names that people gave. */
  private static final String ENGLISH_WORDS =
      """
      (marked) => {
        const apart = marked ? 'code, pre, [lang=en]' : 'code, pre';
        const english = /\\b(the|of|is|are|not|and|with|at|no|has|have|been)\\b/;
        const found = [];
        const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        while (walker.nextNode()) {
          const node = walker.currentNode;
          const text = node.data.replace(/\\s+/g, ' ').replace(/In the closet|On the mat/g, '').trim();
          if (english.test(text) && node.parentElement.checkVisibility() && !node.parentElement.closest(apart)) {
            found.push(text);
          }
        }
        return found;
      }
      """;

  /** Pages that show words of the service and of other programs, marked as English. */
  private static final List<String> MARKED = List.of("service", "rejects");

  /** The widest that the menu gets. */
  private static final String MANY_OPEN_ALERTS =
      "() => document.querySelectorAll('#head .count').forEach((one) => (one.textContent = 888))";

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    browser = Browser.start();
    SmallSeason unused = SmallSeason.in(service);
    Publisher.to(service.mqttPort()).send("tepidarium/in-closet", "{\"temperature\":\"warm\"}");
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  /** Long German words fit a phone and a desk. One visit for both, for the limit of requests. */
  @Test
  void aGermanBrowserSeesNoEnglishText() {
    List<String> english = new ArrayList<>();
    Page page = browser.page(PHONE, "de-AT");
    for (EveryPage.Visit visit : EveryPage.all()) {
      String name = visit.name();
      page.navigate(service.url() + visit.path());
      assertThat(page.locator("html")).hasAttribute("lang", "de");
      EveryPage.awaitLoaded(page);
      EveryPage.unfold(page);
      for (Object text : (List<?>) page.evaluate(ENGLISH_ON_PAGE, List.of("shared", name))) {
        english.add(name + ": " + text);
      }
      for (Object text : (List<?>) page.evaluate(ENGLISH_WORDS, MARKED.contains(name))) {
        english.add(name + ": " + text);
      }
      browser.assertNothingWrong(page);
      page.setViewportSize(DESK, 900);
      page.evaluate(MANY_OPEN_ALERTS);
      browser.assertNothingWrong(page);
      page.setViewportSize(PHONE, 900);
    }
    assertEquals(List.of(), english);
  }

  @Test
  void aDecimalCommaIsShownAndTaken() {
    Page page = browser.page(1280, "de-DE");
    page.navigate(service.url() + EveryPage.path("container"));
    assertThat(page.locator("#limits-part")).containsText(Pattern.compile("29,5\\s°C"));
    page.navigate(service.url() + EveryPage.path("sensors"));
    Locator offset = page.locator("input[name=temperatureOffset]");
    offset.fill("−0,4");
    offset.press("Enter");
    assertThat(page.locator("#sheet")).containsText("Gespeichert.");
    assertEquals(
        -0.4,
        service
            .api()
            .get("/api/sensors/in-closet")
            .at("/calibration/temperatureOffset")
            .asDouble());
  }

  @Test
  void theSwitchChangesTheLanguageAndIsRemembered() {
    Page page = browser.page(390, "de-DE");
    page.navigate(service.url() + "/tally.html");
    assertThat(page.locator("h1")).hasText("Zählbuch");
    assertThat(page.locator("#language")).hasText("English");
    page.locator("#language").click();
    assertThat(page.locator("h1")).hasText("Tally");
    assertThat(page.locator("html")).hasAttribute("lang", "en");
    Page later = browser.pageBeside(page);
    later.navigate(service.url() + "/alerts.html");
    assertThat(later.locator("h1")).hasText("Alerts");
    later.locator("#language").click();
    assertThat(later.locator("h1")).hasText("Warnungen");
  }
}
