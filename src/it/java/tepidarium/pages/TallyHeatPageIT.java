package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.StringJoiner;
import java.util.regex.Pattern;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/**
 * Germination against heat in a real browser, for seeds whose truth is known: four in five ever
 * germinate, half of these after 3000 °C·h above 15 °C, lognormal with a spread of 0.35. One bag
 * lies at 33 °C, one at 25 °C.
 */
class TallyHeatPageIT {
  private static final double MEDIAN_HEAT = 3000;
  private static final double SPREAD = 0.35;
  private static final double BASE_C = 15;
  private static final int SEEDS = 60;
  private static final int EVER = 48;
  private static final int DAYS = 30;
  private static final int CHECK_DAYS = 2;
  private static final int MINUTES = 20;
  private static final double PATIENCE_MS = 30_000;

  private static RunningService service;
  private static Browser browser;
  private static Grower grower;
  private static Instant end;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    grower = new Grower(service.api());
    grower.awaitBroker();
    end = Instant.now().truncatedTo(ChronoUnit.MINUTES);
    warm("Warm bag", 33);
    warm("Cool bag", 25);
    long readings = 2L * DAYS * 24 * 60 / MINUTES;
    await().atMost(Duration.ofSeconds(60)).until(() -> grower.count("stored") >= readings);
    String lot = "{\"species\":\"lychee\",\"seeds\":200,\"from\":\"plant\",\"gatheredAt\":\"%s\"}";
    service.api().post("/api/lots", lot.formatted(ago(DAYS)));
    sow(1, "warm-bag", 33, 28);
    sow(2, "cool-bag", 25, 28);
    sow(3, "warm-bag", 33, 6);
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Instant ago(int days) {
    return end.minus(Duration.ofDays(days));
  }

  private static void warm(String name, double temperatureC) {
    String container = grower.container(name);
    grower.place("in-" + container, container, ago(DAYS));
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (Instant at = ago(DAYS); at.isBefore(end); at = at.plus(Duration.ofMinutes(MINUTES))) {
      backlog.add(
          String.format(Locale.ROOT, "{\"temperature\":%.2f,\"at\":\"%s\"}", temperatureC, at));
    }
    Publisher.to(service.mqttPort()).send("tepidarium/in-" + container, backlog.toString());
  }

  /** A sowing so many days ago, looked at every second day until now. */
  private static void sow(int number, String container, double temperatureC, int days) {
    String body = "{\"lot\":1,\"groups\":[{\"container\":\"%s\",\"seeds\":%d}],\"at\":\"%s\"}";
    service.api().post("/api/sowings", body.formatted(container, SEEDS, ago(days)));
    int before = 0;
    for (int day = CHECK_DAYS; day <= days; day += CHECK_DAYS) {
      int so = germinatedBy(day * 24 * (temperatureC - BASE_C));
      String check = "{\"germinated\":%d,\"at\":\"%s\"}".formatted(so - before, ago(days - day));
      service.api().post("/api/groups/" + number + "-1/checks", check);
      before = so;
    }
  }

  private static int germinatedBy(double heat) {
    double z = Math.log(heat / MEDIAN_HEAT) / SPREAD;
    return (int) Math.round(EVER * NormalDistribution.of(0, 1).cumulativeProbability(z));
  }

  private static Page open(int width) {
    Page page = browser.page(width);
    page.setDefaultTimeout(PATIENCE_MS);
    page.navigate(service.url() + "/tally.html");
    return page;
  }

  private static Locator record(Page page, int sowing) {
    Locator card = page.locator("[data-sowing='" + sowing + "']");
    card.locator("details > summary").first().press("Enter");
    return card.locator(".record-place");
  }

  private static void says(Locator place, String words) {
    assertThat(place).containsText(Pattern.compile(words));
  }

  @Test
  void theCurveIsDrawnOverDaysAndOverHeatInEitherUnit() {
    Page page = open(1280);
    Locator record = record(page, 1);
    assertThat(record.locator("svg.curve title")).hasText("Germinated, by day since sowing");
    record.locator("[data-axis=heat]").click();
    assertThat(record.locator("svg.curve title"))
        .hasText("Germinated, by heat above 15 °C, no more than at 36 °C");
    says(
        record.locator(".course .headline"),
        "^Half of those that germinated needed (29|30|31)\\d\\d °C·h above 15 °C \\(95 %: \\d{4} to \\d{4}\\)\\.$");
    assertThat(record.locator("svg .fitted")).hasCount(1);
    assertThat(record.locator("svg .between")).hasCount(1);
    assertThat(record.locator("svg .whisker").first()).isAttached();
    theTemperatureStandsBelow(record);
    record.locator(".course details > summary").first().press("Enter");
    says(record.locator(".course table").first(), "germinated, group 1-1");
    page.locator("#head .units").click();
    says(record.locator(".course .headline"), "needed 5[3-6]\\d\\d °F·h above 59 °F");
    browser.assertNothingWrong(page);
  }

  /** On the axis of the curve: the same ends, and the fit's half in both. */
  private static void theTemperatureStandsBelow(Locator record) {
    Locator warmth = record.locator(".warmth");
    says(
        warmth.locator(".warmth-words"),
        "on average until the last check\\. By the fitted curve, half");
    assertThat(warmth.locator("svg .warm-line")).hasCount(1);
    assertThat(warmth.locator("svg .half")).hasCount(1);
    record.locator("[data-axis=days]").click();
    says(
        warmth.locator(".warmth-words"), "half of those that germinate had enough heat by day \\d");
    assertThat(warmth.locator("svg text").last()).hasText("days since sowing");
    assertThat(record.locator(".course svg text").last()).hasText("days since sowing");
    record.locator("[data-axis=heat]").click();
  }

  @Test
  void theNextGerminationsAreForecastIfTheCountsAllowIt() {
    Page page = open(390);
    Locator growing = record(page, 3).locator(".forecasts");
    says(
        growing,
        "If it stays as warm as in the last days .* °C·h a day\\), the next \\d of \\d+ (come|should have come)");
    says(growing, "Best day for the next check: ");
    browser.assertNothingWrong(page);
  }

  @Test
  void theSpeciesStatesWhetherHeatOrDaysDecide() {
    Page page = open(390);
    page.locator("#heat-or-days-part [data-species=lychee] summary").first().press("Enter");
    Locator panel = page.locator("#heat-or-days-part .thermal-time");
    assertThat(panel.locator(".headline[data-verdict]"))
        .hasText("The counts follow the heat above 15 °C better than the days.");
    says(
        panel.locator(".measures").first(),
        "Base temperature by likelihood1[45]\\.\\d °C \\(95 %: ");
    assertThat(panel.locator("svg .limit")).hasCount(1);
    assertThat(panel.locator("svg .peak")).hasCount(1);
    says(panel, "How long seed keeps cannot be estimated yet");
    browser.assertNothingWrong(page);
  }
}
