package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A real browser looks at the pages of a real service while a real sensor publishes. */
class PagesIT extends OnEmptyService {
  private Page open(int width, String path) {
    Page page = browser.page(width);
    page.navigate(service.url() + path);
    return page;
  }

  private static void live(Page page) {
    assertThat(page.locator("#live")).hasAttribute("data-state", "live");
  }

  private void publish(String payload) {
    sensor.send("tepidarium/jar-1", payload);
  }

  /** What pages without any data link to. */
  private static final Map<String, String> EMPTY =
      Map.of(
          "/alerts.html", "Make a container on the Shelf",
          "/charts.html", "Make a container on the Shelf",
          "/heat-bench.html", "Make a container on the Shelf",
          "/labels.html", "Make a container on the Shelf",
          "/sensors.html", "Connect one on the Shelf",
          "/season.html", "Record a sowing on the Tally");

  @Test
  void aNewcomerIsLedFromNothingToALiveContainer() {
    Page page = open(1280, "/");
    live(page);
    EMPTY.forEach(
        (path, next) -> {
          page.navigate(service.url() + path);
          assertThat(page.locator("main").getByText(next))
              .hasAttribute("href", Pattern.compile("^/"));
        });
    page.navigate(service.url() + "/");
    assertThat(page.locator("#guide")).isVisible();
    assertThat(page.locator("#guide")).containsText(String.valueOf(service.mqttPort()));
    publish("{\"temperature\":30.4,\"humidity\":91,\"light\":0}");
    assertThat(page.locator("#heard [data-sensor=jar-1]")).isVisible();
    sensor.send("tepidarium/jar-1", "{\"temperature\":");
    assertThat(page.locator("#guide")).containsText("broken JSON");

    Locator form = page.locator("#new-container");
    form.locator("[name=name]").fill("Jar <b>one</b>");
    form.locator("[name=kind]").selectOption("jar");
    form.locator("[type=submit]").click();
    Locator made = page.locator("article[data-container=jar-b-one-b]");
    assertThat(made.getByText("Place a sensor")).hasAttribute("href", "/sensors.html");
    Locator placement = page.locator("#place-sensor");
    placement.locator("[name=sensor]").selectOption("jar-1");
    placement.locator("[name=container]").selectOption("jar-b-one-b");
    placement.locator("[type=submit]").click();

    String from = "/api/sensors/jar-1";
    page.locator("#place-sensor .from-first").click();
    assertThat(page.locator("#place-sensor .done")).containsText("count for this place from");
    JsonNode placed = service.api().get(from);
    assertEquals(placed.path("firstHeard"), placed.at("/placements/0/from"));

    oneReadingIsNoSilence("jar-b-one-b");
    Locator card = page.locator("article[data-container=jar-b-one-b]");
    assertThat(card).containsText("Jar <b>one</b>");
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> !service.api().get("/api/containers/jar-b-one-b").get("sensors").isEmpty());
    publish("{\"temperature\":31.7,\"humidity\":92,\"light\":0}");
    assertThat(card.locator("[data-value=temperature]")).containsText("31.7");
    browser.assertNothingWrong(page);
  }

  /** What would be false, or a figure from too little, while there is one reading. */
  private static final Pattern FALSE_AFTER_ONE =
      Pattern.compile(
          "NaN|undefined|Infinity|no readings|No reading|0 s were|without temperature|all alike"
              + "|throughout|\\b0 %|to 30\\.4|not reached|seeds a day|no sensor\\b(?! faults)");

  /** Each page with one reading in a container, then with seeds sown there today too. */
  private void oneReadingIsNoSilence(String jar) {
    Page page = browser.page(1280);
    assertNothingFalse(page, "/");
    assertNothingFalse(page, "/container.html?id=" + jar);
    assertThat(page.locator("#charts")).containsText("30.4 °C, measured only once");
    assertThat(page.locator(".tile.heat")).containsText("counts from the next reading on");
    service.api().post("/api/lots", SeedBodies.lot("cacao"));
    service.api().post("/api/sowings", SeedBodies.sowing(1, jar, 0));
    assertNothingFalse(page, "/charts.html?container=" + jar);
    assertNothingFalse(page, "/heat-bench.html");
    assertNothingFalse(page, "/season.html");
    assertNothingFalse(page, "/tally.html");
    page.close();
  }

  private void assertNothingFalse(Page page, String path) {
    page.navigate(service.url() + path);
    EveryPage.awaitLoaded(page);
    EveryPage.unfold(page);
    String said = page.locator("main").innerText();
    assertEquals(
        List.of(), FALSE_AFTER_ONE.matcher(said).results().map(MatchResult::group).toList());
  }

  @Test
  void aReadingArrivesAndAnAlertAppearsWithoutReloading() {
    String jar = grower.container("Jar");
    grower.place("jar-1", jar, Instant.now().minusSeconds(1_200));
    Page page = open(1280, "/");
    live(page);
    temperatureAgo(15, 30.2);
    Locator card = page.locator("article[data-container=" + jar + "]");
    assertThat(card.locator("[data-value=temperature]")).containsText("30.2");
    assertThat(card.locator("[data-value=humidity]")).containsText("saturated");
    assertThat(page.locator("#attention [data-alert]")).hasCount(0);

    temperatureAgo(11, 24.5);
    temperatureAgo(6, 24.3);
    temperatureAgo(1, 24.4);
    Locator alert = page.locator("#attention [data-alert][data-kind=cold]");
    assertThat(alert).isVisible();
    assertThat(alert).containsText("Jar");
    alert.locator("button").first().click();
    assertThat(alert).containsText(Pattern.compile("[Aa]cknowledged|[Ss]een"));
    browser.assertNothingWrong(page);
  }

  private void temperatureAgo(int minutes, double temperature) {
    Instant at = Instant.now().minusSeconds(minutes * 60L);
    publish(
        "{\"temperature\":"
            + temperature
            + ",\"humidity\":96.5,\"light\":0,\"at\":\""
            + at
            + "\"}");
  }

  @ParameterizedTest
  @ValueSource(ints = {1280, 390})
  void theContainerPageShowsItsCourse(int width) {
    String jar = grower.container("Jar");
    Instant start = Instant.now().minusSeconds(20 * 3_600);
    grower.place("jar-1", jar, start);
    StringBuilder backlog = new StringBuilder("[");
    for (int i = 0; i < 200; i++) {
      double light = i > 100 && i < 110 ? 12 : 0;
      double temperature = i == 50 ? 85 : i > 150 ? 26 : 30.5;
      backlog
          .append(i == 0 ? "" : ",")
          .append("{\"temperature\":" + temperature + ",\"humidity\":90,\"light\":" + light)
          .append(",\"at\":\"" + start.plusSeconds(i * 300L) + "\"}");
    }
    publish(backlog.append("]").toString());
    Page page = open(width, "/container.html?id=" + jar);
    live(page);
    assertThat(page.locator("h1")).containsText("Jar");
    assertThat(page.locator("canvas")).hasCount(4);
    assertThat(page.locator("#light-part")).containsText("Other light");
    assertThat(page.locator("main")).containsText("Too cold");
    includeAndExcludeTheErrorCode(page);
    page.getByText("I am opening it").click();
    await()
        .untilAsserted(
            () ->
                assertEquals(1, service.api().get("/api/containers/" + jar + "/openings").size()));
    browser.assertNothingWrong(page);
  }

  /** The 85 °C in the backlog is left out until a press includes it. */
  private static void includeAndExcludeTheErrorCode(Page page) {
    Locator fault = page.locator("#faults [data-fault=power-on]");
    Locator chart = page.locator("[data-chart=temperature]");
    Locator limits = page.locator("#limits-part");
    assertThat(fault).containsText("left out of figures");
    assertThat(limits).containsText("10 min of temperature");
    assertThat(chart).not().hasAttribute("aria-label", Pattern.compile("85"));
    fault.getByText("Include").click();
    assertThat(fault).containsText("counted");
    assertThat(chart).hasAttribute("aria-label", Pattern.compile("85.*Power-on value \\(counted"));
    assertThat(limits).not().containsText("10 min of temperature");
    fault.getByText("Exclude").click();
    assertThat(fault).containsText("left out of figures");
  }

  @Test
  void anUnknownContainerIsReported() {
    Page page = open(390, "/container.html?id=nowhere");
    assertThat(page.locator("main")).containsText("nowhere");
    assertTrue(
        browser.complaints().stream().allMatch(text -> text.contains("404")),
        () -> "complaints: " + browser.complaints());
  }

  @Test
  void anAddressThatNamesNoContainerLeadsBack() {
    Page page = open(390, "/container.html?container=jar");
    assertThat(page.locator("h1")).hasText("No container was named.");
    assertThat(page.locator("main a[href='/']").last()).hasText("Back to the Shelf");
    assertEquals(List.of(), browser.complaints());
  }

  @Test
  void rejectedMessagesAreListedWithTheirReason() {
    publish("{\"temperature\":\"warm\"}");
    Page page = open(390, "/rejects.html");
    assertThat(page.locator("main")).containsText("warm");
    assertThat(page.locator("main")).containsText("tepidarium/jar-1");
    browser.assertNothingWrong(page);
  }

  @Test
  void thePageServiceTellsHowEachPartIs() {
    Page page = open(390, "/");
    page.locator("#foot a", new Page.LocatorOptions().setHasText("Service")).click();
    assertThat(page.locator("#state-verdict")).hasText("The service works without problems.");
    Locator broker =
        page.locator("#state-parts tbody tr", new Page.LocatorOptions().setHasText("Broker"));
    assertThat(broker).containsText("works");
    assertThat(page.locator("#state-counts")).containsText("received");
    page.locator("#foot a", new Page.LocatorOptions().setHasText("Cautions")).click();
    assertThat(page.locator("h1")).hasText("Cautions");
    browser.assertNothingWrong(page);
  }
}
