package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/** A real browser on the report of a season whose figures were worked by hand. */
class SeasonPageIT {
  private static final double PATIENCE_MS = 30_000;

  private static RunningService service;
  private static Browser browser;
  private static SmallSeason season;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    season = SmallSeason.in(service);
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Page open(int width, String query) {
    Page page = browser.page(width);
    page.setDefaultTimeout(PATIENCE_MS);
    page.navigate(service.url() + "/season.html" + query);
    assertThat(page.locator("#report h3").first()).hasText("Lessons");
    return page;
  }

  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void theSeasonReportShowsAllParts(int width) {
    Page page = open(width, "");
    assertThat(page.locator("nav a[aria-current]")).hasText("Tally");
    says(page, ".headline", "Lychee: 42 of 100 seeds germinated, 42 % (95 %: 33 to 52 %)");
    says(page, ".lessons li[data-kind=culled]", "5 of 40 seeds of In the closet were discarded");
    says(
        page,
        ".lessons li[data-kind=culled] .lesson-picture li:first-child",
        "In the closet12.5 %");
    Locator closet = row(page, "Sown and come up", "In the closet");
    assertThat(closet).containsText("22 = 55 %40 to 69");
    assertThat(closet).containsText("day 4 to 8");
    assertThat(closet).containsText("3029 °C·h");
    assertThat(row(page, "Sown and come up", "sowing 2")).containsText("not measured");
    Locator container = row(page, "Containers", "Closet");
    assertThat(container).containsText("1 ×, 12 h 17 min");
    assertThat(container).containsText("24.3 °C·h lost");
    assertThat(container).containsText("2 ×, 10.0 lux·h");
    assertThat(row(page, "Compared", "In the closet minus Lychee, sowing 2"))
        .containsText("+35+14 to +52");
    browser.assertNothingWrong(page);
  }

  @Test
  void itIsFoundFromTheTally() {
    Page page = browser.page(390);
    page.navigate(service.url() + "/tally.html");
    page.locator("#export-part a[href='/season.html']").click();
    assertThat(page.locator("#report-title")).containsText("Season ");
    browser.assertNothingWrong(page);
  }

  @Test
  void everyTemperatureFollowsTheUnit() {
    Page page = open(1280, "");
    says(page, ".lessons li[data-kind=cold]", "below 29.5 °C");
    page.locator("#head .units").click();
    // 29.5 °C and 24.3 °C·h in degrees of 5/9 °C.
    says(page, ".lessons li[data-kind=cold]", "below 85.1 °F");
    says(page, ".lessons li[data-kind=cold]", "lost 43.7 °F·h");
    assertThat(row(page, "Sown and come up", "In the closet")).containsText("5452 °F·h");
    assertThat(page.locator(".lessons")).not().containsText("°C");
    browser.assertNothingWrong(page);
  }

  @Test
  void aSeasonIsKeptComparedWithAndRemoved() {
    Page page = open(390, "");
    String first = season.day(0).toString().substring(0, 10);
    page.locator("#from").fill(first);
    page.locator("#to").fill(season.day(4).toString().substring(0, 10));
    page.locator("#choice [type=submit]").click();
    says(page, ".headline", "Lychee: 6 of 40 seeds germinated");
    says(page, ".headline", "40 more were not checked yet");
    page.locator("#keep-name").fill("First half");
    page.locator("#keep [type=submit]").click();
    says(page, "#said", "Kept: First half");
    says(page, "#report-title", "First half, ");
    assertThat(page).hasURL(Pattern.compile("season=\\d+"));
    assertThat(page.locator("#keep-part")).isHidden();
    says(page, "#kept li", "80 seeds sown, 6 germinated");

    page.locator("#from").fill(season.day(5).toString().substring(0, 10));
    page.locator("#to").fill(season.day(9).toString().substring(0, 10));
    page.locator("#choice [type=submit]").click();
    says(page, "#report-title", "Season ");
    Locator lychee = row(page, "Against earlier seasons", "Lychee");
    assertThat(lychee).containsText("6 of 40");
    assertThat(lychee).containsText("12 of 20");
    assertThat(lychee).containsText("+19 to +65");
    page.locator("#keep-name").fill("first HALF");
    page.locator("#keep [type=submit]").click();
    says(page, "#said", "exists already");

    Locator remove = page.locator("#kept li button");
    remove.click();
    assertThat(remove).hasText("Really remove it?");
    remove.click();
    says(page, "#said", "Removed: First half");
    assertThat(page.locator("#kept-part")).isHidden();
    List<String> complaints =
        browser.complaints().stream().filter(text -> !text.contains("409")).toList();
    assertEquals(List.of(), complaints);
    browser.complaints().clear();
  }

  @Test
  void itIsPrintedOnOneOrTwoPages() {
    Page page = open(1280, "");
    assertThat(page.locator(".lessons .lesson-picture .bar").first()).isVisible();
    for (Paper paper : Paper.values()) {
      long sheets = paper.sheets(page);
      assertTrue(sheets == 1 || sheets == 2, sheets + " sheets of " + paper);
      assertEquals(List.of(), paper.cutOff(page), "cut off on " + paper);
    }
    page.emulateMedia(
        new Page.EmulateMediaOptions().setMedia(Media.PRINT).setColorScheme(ColorScheme.DARK));
    for (String place : List.of("#head", "#foot", "#choice", "#keep-part", "#print")) {
      assertThat(page.locator(place)).isHidden();
    }
    assertThat(page.locator("#report-title")).isVisible();
    browser.assertNothingWrong(page);
    assertEquals("rgb(0, 0, 0)", page.evaluate("() => getComputedStyle(document.body).color"));
  }

  private static Locator row(Page page, String section, String words) {
    return page.locator("#report section")
        .filter(
            new Locator.FilterOptions()
                .setHas(page.locator("h3", new Page.LocatorOptions().setHasText(section))))
        .locator("tbody tr")
        .filter(new Locator.FilterOptions().setHasText(words))
        .first();
  }

  private static void says(Page page, String place, String words) {
    assertThat(page.locator(place).first()).containsText(words);
  }
}
