package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Api;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/**
 * Four walks through the pages on a phone, each with its number of taps: a newcomer, the weekly
 * round, a nursery of 300 containers, and the end of a season. The numbers are goals: a page that
 * needs more is worse than today's. Typing into a field is one tap, a choice from a list two.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class WalksIT {
  private static final int PHONE = 390;
  private static final int CONTAINERS = 300;

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;
  private static Grower grower;
  private static Publisher sensor;
  private Page page;
  private int taps;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    grower = new Grower(service.api());
    grower.awaitBroker();
    sensor = Publisher.to(service.mqttPort());
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  @BeforeEach
  void begin() {
    taps = 0;
  }

  private void open(String path) {
    page = browser.page(PHONE);
    page.navigate(service.url() + path);
  }

  private void tap(String place) {
    Locator found = page.locator(place).first();
    assertThat(found).isEnabled();
    found.click();
    taps++;
  }

  private void unfold(String place) {
    page.locator(place).first().press("Enter");
    taps++;
  }

  private void type(String place, String text) {
    page.locator(place).first().fill(text);
    taps++;
  }

  private void says(String place, String words) {
    assertThat(page.locator(place).first()).containsText(words);
  }

  private void assertTaps(int goal) {
    assertEquals(goal, taps, "taps");
    browser.assertNothingWrong(page);
  }

  /** From an empty service to the live temperature of a container. The command was copied. */
  @Test
  @Order(1)
  void aNewcomerSeesTheFirstTemperature() {
    open("/");
    assertThat(page.locator("#guide")).isVisible();
    sensor.send("tepidarium/jar-1", "{\"temperature\":30.4,\"humidity\":91,\"light\":0}");
    assertThat(page.locator("#heard [data-sensor=jar-1]")).isVisible();
    type("#new-container [name=name]", "Jar 1");
    tap("#new-container [type=submit]");
    assertThat(page.locator("#place-sensor [name=sensor]")).hasValue("jar-1");
    assertThat(page.locator("#place-sensor [name=container]")).hasValue("jar-1");
    tap("#place-sensor [type=submit]");
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> !service.api().get("/api/containers/jar-1").get("sensors").isEmpty());
    sensor.send("tepidarium/jar-1", "{\"temperature\":30.4,\"humidity\":91,\"light\":0}");
    says("article[data-container=jar-1] [data-value=temperature]", "30.4");
    assertTaps(3);
  }

  /** Three containers are due: something germinated in one, nothing in the others. */
  @Test
  @Order(2)
  void theWeeklyRound() {
    Api api = service.api();
    api.post("/api/lots", SeedBodies.lot("cacao"));
    for (int i = 2; i <= 4; i++) {
      grower.container("Jar " + i);
      api.post("/api/sowings", SeedBodies.sowing(1, "jar-" + i, 8 + i));
    }
    open("/tally.html");
    says("#start-round", "3 checks");
    tap("#start-round");
    tap("#sheet [data-counter=germinated] button:last-of-type");
    tap("#sheet [type=submit]");
    says("#sheet .place", "2 of 3");
    tap("#sheet [type=submit]");
    says("#sheet .place", "3 of 3");
    tap("#sheet [type=submit]");
    says("#sheet", "3 checks written down.");
    assertTaps(5);
  }

  /** The last check: one more germinated, the rest discarded. Then the season is kept. */
  @Test
  @Order(3)
  void theEndOfASeason() {
    open("/tally.html");
    tap("[data-group='1-1'] [data-act=check]");
    tap("#sheet [data-counter=germinated] button:last-of-type");
    tap("#sheet [type=submit]");
    assertThat(page.locator("#sheet")).isHidden();
    tap("#export-part a[href='/season.html']");
    says("#report-title", "Season ");
    type("#keep-name", "First season");
    tap("#keep [type=submit]");
    says("#said", "Kept: First season");
    assertTaps(6);
  }

  /** The heat of a bench fails, and its four jars get cold. One is looked up by its name. */
  @Test
  @Order(4)
  void aNurseryOfManyContainers() {
    for (int i = 5; i <= CONTAINERS; i++) {
      String bench = "\"Bench " + i % 10 + '"';
      grower.container("Jar " + i, ",\"room\":" + bench + ",\"heatSource\":" + bench);
    }
    for (int i : List.of(103, 113, 123, 133)) {
      grower.place("s-" + i, "jar-" + i, Instant.now().minusSeconds(1_200));
      for (int minutes : List.of(15, 11, 6, 1)) {
        String at = Instant.now().minus(Duration.ofMinutes(minutes)).toString();
        sensor.send("tepidarium/s-" + i, "{\"temperature\":24.4,\"at\":\"" + at + "\"}");
      }
    }
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> service.api().get("/api/alerts?state=active").size() >= 4);
    open("/");
    says("#attention-title", "4 alerts");
    unfold("#attention-fold > summary");
    says("#attention .group-title", "4 containers on “Bench 3” are too cold");
    tap("#attention .group-head button");
    assertThat(page.locator("#attention .group")).hasCount(0);
    type("#view-search", "jar 123");
    assertThat(page.locator("#containers article")).hasCount(1);
    tap("#containers article a");
    says("h1", "Jar 123");
    assertTaps(4);
  }
}
