package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/**
 * A real browser on charts of one container and of several, of a season whose figures are known.
 */
class ChartsPageIT {
  private static final double PATIENCE_MS = 30_000;
  private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};

  private static final String COLOURS_ON_PAPER =
      """
      () => {
        dispatchEvent(new Event('beforeprint'));
        const found = [
          getComputedStyle(document.querySelector('.panel')).backgroundColor,
          getComputedStyle(document.querySelector('.plot')).getPropertyValue('--line-1').trim(),
        ];
        dispatchEvent(new Event('afterprint'));
        return found;
      }
      """;

  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    SmallSeason season = SmallSeason.in(service);
    service
        .api()
        .post(
            "/api/sensors/in-closet/calibration-points",
            "{\"quantity\":\"temperature\",\"reading\":0,\"method\":\"icePoint\",\"at\":\"%s\"}"
                .formatted(season.day(6)));
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Page open(int width, String path) {
    Page page = browser.page(width);
    page.setDefaultTimeout(PATIENCE_MS);
    page.navigate(service.url() + path);
    assertThat(page.locator("#marked .marked li").first()).isVisible();
    return page;
  }

  private static Locator panel(Page page, String chart) {
    return page.locator(".panel", new Page.LocatorOptions().setHas(page.locator(plot(chart))));
  }

  private static String plot(String chart) {
    return "[data-chart=" + chart + "]";
  }

  private static void showAll(Page page) {
    Locator more =
        page.locator("#marked > button", new Page.LocatorOptions().setHasText("Show all"));
    if (more.count() > 0) {
      more.press("Enter");
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void severalContainersShareAChart(int width) {
    Page page = open(width, "/charts.html?range=all&container=mat-bag&container=closet");
    assertThat(page.locator("nav a[aria-current]")).hasText("Charts");
    assertThat(panel(page, "temperature").locator(".chart-sentence"))
        .hasText(
            Pattern.compile(
                "On average, Mat bag is highest with 33\\.0 °C and Closet lowest with 30\\.8 °C\\."));
    assertThat(panel(page, "temperature").locator(".key-entry"))
        .hasText(new String[] {"Mat bag", "Closet"});
    panel(page, "temperature").locator("summary").press("Enter");
    assertThat(panel(page, "temperature").locator("tbody tr")).hasCount(48);
    assertThat(panel(page, "temperature").locator("thead th"))
        .hasText(new String[] {"From", "Mat bag", "Closet"});
    showAll(page);
    assertThat(page.locator("#marked"))
        .containsText("Closet: Check of In the closet, group 1-1: 6 newly germinated");
    assertThat(page.locator("#marked")).containsText("Mat bag: Sensor in-mat-bag placed here");
    browser.assertNothingWrong(page);
  }

  /** The charts have one cursor; an entry of the list leads to its moment in all of them. */
  @Test
  void anEntryOfTheListLeadsToItsMoment() {
    Page page = open(1280, "/container.html?id=closet&range=all");
    showAll(page);
    assertThat(page.locator("#marked")).containsText("Too cold: 12 h 17 min, at worst 27.5 °C");
    assertThat(page.locator("#marked")).containsText("Sensor in-closet calibrated: temperature");
    page.locator("#marked [data-mark=checked] button").last().press("Enter");
    assertThat(page).hasURL(Pattern.compile("from=.*&to="));
    for (String chart : List.of("temperature", "humidity", "light", "heat")) {
      assertThat(panel(page, chart).locator(".readout"))
          .hasText(Pattern.compile("\\d\\d:\\d\\d: .+"));
    }
    assertThat(page.locator("#marked li")).not().hasCount(0);
    browser.assertNothingWrong(page);
  }

  @Test
  void theChoiceStandsInTheAddress() {
    Page page = open(1280, "/charts.html?range=7d");
    page.locator("#containers input[value=tray]").check();
    page.locator("#quantities input[value=humidity]").uncheck();
    assertThat(panel(page, "humidity")).hasCount(0);
    assertThat(page).hasURL(Pattern.compile("range=7d.*container=tray.*quantity=temperature"));
    String chosen = page.url();
    page.reload();
    assertThat(panel(page, "temperature").locator(".key-entry")).hasCount(3);
    assertThat(panel(page, "humidity")).hasCount(0);
    assertEquals(chosen, page.url());
    for (String id : List.of("closet", "mat-bag")) {
      page.locator("#containers input[value=" + id + "]").uncheck();
    }
    assertThat(page.locator(plot("temperature")).locator("..")).containsText("Nothing to draw");
    page.locator("#containers input[value=tray]").uncheck();
    assertThat(page.locator("#choice-help")).hasText("Choose a container.");
    browser.assertNothingWrong(page);
  }

  @Test
  void aChartIsSavedAsPictureAndAsFigures() throws IOException {
    Page page = open(1280, "/charts.html?range=all&container=mat-bag&container=closet");
    Locator buttons = panel(page, "temperature").locator(".actions button");
    Path csv = saved(page, buttons.last(), "temperature-.*\\.csv");
    List<String> lines = Files.readAllLines(csv);
    assertEquals("time,container,quantity,unit,mean,lowest,highest", lines.get(0));
    assertTrue(lines.get(1).endsWith("Z,Mat bag,temperature,°C,33,33,33"), lines.get(1));
    assertTrue(lines.stream().anyMatch(line -> line.contains(",Closet,")), csv.toString());
    Path png = saved(page, buttons.first(), "temperature-.*\\.png");
    assertArrayEquals(PNG, Arrays.copyOf(Files.readAllBytes(png), PNG.length));
    browser.assertNothingWrong(page);
  }

  private static Path saved(Page page, Locator button, String name) {
    Download download = page.waitForDownload(() -> button.press("Enter"));
    assertTrue(download.suggestedFilename().matches(name), download.suggestedFilename());
    return download.path();
  }

  @Test
  void draggingOverAChartZoomsAndADoubleClickGoesBack() {
    Page page = open(1280, "/charts.html?range=all&container=closet");
    Locator plot = page.locator(plot("temperature") + " .u-over");
    double width = plot.boundingBox().width;
    plot.hover(new Locator.HoverOptions().setPosition(width * 0.2, 50));
    page.mouse().down();
    plot.hover(new Locator.HoverOptions().setPosition(width * 0.4, 50));
    page.mouse().up();
    assertThat(page).hasURL(Pattern.compile("from=.*&to="));
    assertThat(page.locator("#charts")).not().hasAttribute("aria-busy", "true");
    assertThat(panel(page, "temperature").locator(".chart-sentence"))
        .containsText("lowest 27.5 °C");
    plot.dblclick();
    assertThat(page).hasURL(Pattern.compile("range=all$"));
    browser.assertNothingWrong(page);
  }

  /** On white whatever the screen shows, and nothing beyond the paper. */
  @ParameterizedTest
  @EnumSource(Paper.class)
  void chartsArePrintedWhole(Paper paper) {
    for (String path : List.of("/charts.html?range=all", "/container.html?range=all&id=closet")) {
      Page page = open(1280, path);
      page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
      assertThat(page.locator("#charts canvas").first()).isVisible();
      long sheets = paper.sheets(page);
      assertTrue(sheets >= 2 && sheets <= 6, path + ": " + sheets + " sheets");
      assertEquals(List.of(), paper.cutOff(page), path);
      assertEquals(List.of("rgb(255, 255, 255)", "#9a4226"), page.evaluate(COLOURS_ON_PAPER), path);
      assertThat(page.locator("#head")).isHidden();
      browser.assertNothingWrong(page);
    }
  }
}
