package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.BenchShelf;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** A real browser on the heat bench of a shelf whose truth is known. */
class HeatBenchPageIT {
  private static final double PATIENCE_MS = 60_000;

  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    Grower grower = new Grower(service.api());
    grower.awaitBroker();
    new BenchShelf(grower, Publisher.to(service.mqttPort())).fill();
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
    page.navigate(service.url() + "/heat-bench.html" + query);
    assertThat(page.locator("#live")).hasAttribute("data-state", "live");
    return page;
  }

  private static void says(Locator place, Pattern words) {
    assertThat(place)
        .containsText(
            words,
            new com.microsoft.playwright.assertions.LocatorAssertions.ContainsTextOptions()
                .setTimeout(PATIENCE_MS));
  }

  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void theSourcesAreComparedAtOnceAndAPlaceCanBeTried(int width) {
    Page page = open(width, "");
    assertThat(page.locator("nav a[aria-current]")).hasText("Heat bench");
    Locator verdict = page.locator("#comparison .bench-verdict");
    says(verdict, Pattern.compile("gave (59|60)\\.\\d °C·h a day more than"));
    theServiceSaysTheSame(page, verdict);
    assertThat(page.locator("#comparison table")).hasCount(2);
    assertThat(page.locator("#comparison .heat-bars [data-bar]")).hasCount(2);
    assertThat(page.locator("#profile canvas")).hasCount(1);

    page.locator("#trial-container").selectOption("lamp-1");
    page.locator("#trial-watts").fill("40");
    page.locator("#trial-form [type=submit]").click();
    says(
        page.locator("#trial .bench-verdict"),
        Pattern.compile("falls below 29\\.5 °C when the room stays below 1[67]\\.\\d °C"));
    assertThat(page.locator("#trial")).containsText("at most 0.96 kWh");
    browser.assertNothingWrong(page);
  }

  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void daysWithoutSensorsAreEnteredAndShownApart(int width) {
    Page page = browser.page(width);
    page.setDefaultTimeout(PATIENCE_MS);
    page.navigate(service.url() + "/container.html?id=mat-1");
    Locator part = page.locator("#extremes-part");
    part.locator("summary").press("Enter");
    part.locator("[name=day]").fill("2026-02-03");
    part.locator("[name=min]").fill("31");
    part.locator("[name=max]").fill("20");
    part.locator("[type=submit]").click();
    assertThat(part.locator("[role=alert]")).containsText("above the highest");
    part.locator("[name=min]").fill("20");
    part.locator("[name=max]").fill("30");
    part.locator("[type=submit]").click();
    says(part, Pattern.compile("About 240 °C·h in 1 day without readings"));
    assertThat(part.locator("tbody tr")).containsText("≈ 240");
    browser.assertNothingWrong(page);
    part.locator("tbody button").click();
    assertThat(part.locator("tbody tr")).hasCount(0);
    browser.assertNothingWrong(page);
    page.navigate(service.url() + "/figures.html#container");
    assertThat(page.locator("h2#container")).hasText("Container");
    browser.assertNothingWrong(page);
    page.locator("#foot .documents a", new Page.LocatorOptions().setHasText("Stores")).click();
    assertThat(page).hasURL(service.url() + "/docs/stores.html");
    assertThat(page.locator("h1")).hasText("Stores and brokers");
    browser.assertNothingWrong(page);
  }

  /** The page composes the sentence itself, in the reader's unit; in °C it is the service's. */
  private static void theServiceSaysTheSame(Page page, Locator verdict) {
    String from =
        String.valueOf(
            page.evaluate(
                "() => performance.getEntriesByType('resource')"
                    + ".map((one) => one.name).filter((name) => name.includes('/api/compare/heat')).at(-1)"));
    String path = from.substring(service.url().length());
    assertThat(verdict).hasText(service.api().get(path).path("verdict").asText());
    page.locator("#head .units").click();
    says(verdict, Pattern.compile("gave 10[678]\\.\\d °F·h a day more than"));
    page.locator("#head .units").click();
  }

  @Test
  void equalContainersAreChosenAndNothingIsFound() {
    Page page = open(390, "?container=mat-1&span=all");
    assertThat(page.locator("#choice-help")).containsText("Choose two");
    page.locator("#containers input[value=mat-2]").check();
    says(
        page.locator("#comparison .bench-verdict"),
        Pattern.compile(
            "No clear difference in heat between Mat 1 and Mat 2|Swap the sensor of Mat"));
    assertThat(page).hasURL(Pattern.compile("container=mat-1&container=mat-2&span=all"));
    page.locator("#trial-watts").fill("much");
    page.locator("#trial-form [type=submit]").click();
    assertThat(page.locator("#trial [role=alert]")).containsText("number of watts");
    browser.assertNothingWrong(page);
  }
}
