package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.sqlite.SqliteReadings;

/** A real browser on the page of 500 sensors, and on the sheet of one. */
class SensorsPageIT {
  private static final int SENSORS = 500;
  private static final int HOURS = 72;
  private static final Instant NOW = Instant.now().truncatedTo(ChronoUnit.MINUTES);

  private static RunningService service;
  private static Browser browser;

  /** The readings are stored before the start, because 500 new topics take the broker long. */
  @BeforeAll
  static void start(@TempDir Path data) {
    try (SqliteReadings store = SqliteReadings.open(data.resolve("readings.db"))) {
      store.write(readings());
    }
    // A folder with readings alone looks like one that has lost its records.
    SqliteRecords.open(data.resolve("records.db")).close();
    service = RunningService.embedded(data);
    Grower grower = new Grower(service.api());
    grower.container("Jar", ",\"base\":15");
    grower.container("Tray", ",\"base\":15");
    service.api().put("/api/sensors/node-9/details", "{\"name\":\"Lid\",\"emptyVolts\":3.7}");
    service.api().post("/api/sensors/node-10/move", "{\"container\":\"room\"}");
    service.api().post("/api/sensors/node-11/retire", "{}");
    browser = Browser.start();
  }

  /** Three sensors with three days of readings, the third until two hours ago; else one reading. */
  private static List<Reading> readings() {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < SENSORS; i++) {
      SensorId sensor = new SensorId("node-" + i);
      boolean many = i >= 6 && i <= 8;
      Instant last = i == 8 ? NOW.minus(Duration.ofHours(2)) : NOW;
      for (int back = many ? HOURS * 12 - 1 : 0; back >= 0; back--) {
        Instant at = last.minus(Duration.ofMinutes(5L * back));
        Map<Quantity, Double> values = Map.of(Quantity.TEMPERATURE, 31.0, Quantity.BATTERY, 3.6);
        readings.add(new Reading(sensor, at, values, null));
      }
    }
    return readings;
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Page open(int width, String query) {
    Page page = browser.page(width);
    page.navigate(service.url() + "/sensors.html" + query);
    assertThat(page.locator("#live")).hasAttribute("data-state", "live");
    return page;
  }

  @Test
  void fiveHundredSensorsAreSearchedSortedAndChosen() {
    Page page = open(1280, "");
    Locator rows = page.locator("#sensors > li");
    assertThat(rows).hasCount(SENSORS);
    assertThat(page.locator("nav a[aria-current]")).hasText("Sensors");
    assertThat(page.locator("#verdict"))
        .containsText(
            Pattern.compile(
                "499 sensors in use: 1 late, 1 with a low battery, 49[78] without a place"));
    assertThat(rows.nth(0)).containsText("Lid");
    assertThat(rows.nth(2)).containsText("node-1");

    page.locator("#search").fill("node-49 place");
    assertThat(rows).hasCount(11);
    page.locator("#search").fill("");
    page.locator("#show").selectOption("late");
    assertThat(rows).hasCount(1);
    assertThat(rows.nth(0))
        .containsText(Pattern.compile("node-8.*every 5 min · late by", Pattern.DOTALL));
    page.locator("#show").selectOption("low");
    assertThat(rows).hasCount(1);
    assertThat(rows.nth(0)).containsText("3.60 V, empty");
    page.locator("#show").selectOption("retired");
    assertThat(rows.nth(0)).containsText("retired since");
    page.locator("#show").selectOption("all");
    page.locator("#sort").selectOption("heard");
    assertThat(rows.nth(0)).containsText("node-8");
    page.reload();
    assertThat(rows.nth(0)).containsText("node-8");
    browser.assertNothingWrong(page);
    page.setViewportSize(390, 900);
    browser.assertNothingWrong(page);
  }

  @Test
  void anAccountIsMadeAndItsPasswordIsShownOnce() {
    Page page = open(390, "");
    Locator make = page.locator("#add-account [type=submit]");
    page.getByLabel("Name of the sensor").fill("node 9");
    make.click();
    assertThat(page.locator("#account-output [role=alert]"))
        .containsText("Please check the name: 1 to 64 of these characters");
    page.getByLabel("Name of the sensor").fill("new-jar");
    make.click();
    Locator lines = page.locator("#account-output pre");
    assertThat(lines).containsText("#define BROKER_USER \"new-jar\"");
    assertThat(page.locator("#account-output svg path")).hasCount(1);
    String first = lines.textContent();
    Locator account = page.locator("#accounts > li[data-account=new-jar]");
    assertThat(account).containsText("publishes to tepidarium/new-jar/#");

    page.reload();
    // The list stands above the accounts: a press is lost if it moves them away.
    assertThat(page.locator("#verdict")).containsText("sensors in use");
    assertThat(account).containsText("not connected");
    assertThat(lines).hasCount(0);
    page.getByLabel("New password for new-jar").click();
    assertThat(lines).containsText("#define BROKER_USER \"new-jar\"");
    assertThat(lines).not().hasText(first);
    page.getByLabel("Change the topics of new-jar").click();
    Locator topics = account.getByLabel("Publishes to");
    assertThat(topics).hasValue("tepidarium/new-jar/#");
    topics.fill("tepidarium/new-jar garden/#");
    account.getByText("Save").click();
    assertThat(account).containsText("publishes to tepidarium/new-jar, garden/#");
    page.getByLabel("Remove the account new-jar").click();
    assertThat(account).hasCount(0);
  }

  @Test
  void aMoveInThePastChangesTheFiguresAndCanBeUndone() {
    Page page = open(390, "?sensor=node-7");
    assertThat(page.locator("#sheet h1")).hasText("node-7");
    Locator form = page.locator("#move");
    Locator result = page.locator("#change-result");
    form.locator("[name=container]").selectOption("jar");
    form.locator("[name=from]").fill(local(NOW.minus(Duration.ofHours(HOURS + 1))));
    form.locator("[type=submit]").click();
    assertThat(form.locator("[role=alert]")).containsText("before the first reading of node-7");
    assertThat(form.locator("[role=alert]")).not().containsText("Z.");

    form.locator("[name=from]").fill(local(NOW.minus(Duration.ofHours(48))));
    form.locator("[type=submit]").click();
    assertThat(result).containsText("node-7 goes to Jar. Jar: now 768 °C·h.");
    page.getByText("Count from its first reading, ").click();
    assertThat(result).containsText("Readings of node-7 count for this place from ");
    assertThat(page.locator(".from-first")).hasCount(0);
    JsonNode first = service.api().get("/api/sensors/node-7");
    assertEquals(first.path("firstHeard"), first.at("/placements/0/from"));
    result.getByText("Undo").click();
    assertThat(result).containsText("placed as before");
    form.locator("[name=container]").selectOption("tray");
    form.locator("[name=from]").fill(local(NOW.minus(Duration.ofHours(24))));
    form.locator("[type=submit]").click();
    assertThat(result).containsText(Pattern.compile("Jar: 76[89] °C·h became 38[34] °C·h"));
    assertThat(result.locator("tbody tr")).hasCount(2);
    assertEquals(384, heat("tray"), 1);
    assertThat(page.locator("#placements > li")).hasCount(2);

    result.getByText("Undo").click();
    assertThat(result).containsText("placed as before");
    assertThat(page.locator("#placements > li")).hasCount(1);
    assertEquals(768, heat("jar"), 1);
    // The refused move is an answer with status 400, which the browser reports.
    browser.complaints().removeIf(text -> text.contains("400"));
    browser.assertNothingWrong(page);
  }

  @Test
  void aListFromBeforeAChangeDoesNotHideTheChange() {
    Page page = browser.page(390);
    page.clock().install();
    page.navigate(service.url() + "/sensors.html?sensor=node-12");
    assertThat(page.locator("#sheet h1")).hasText("node-12");
    Map<Route, APIResponse> lists = new LinkedHashMap<>();
    page.route("**/api/sensors?*", route -> lists.put(route, route.fetch()));
    page.clock().fastForward(60_000);
    page.waitForCondition(() -> !lists.isEmpty());

    page.locator("#move [name=container]").selectOption("jar");
    page.locator("#move [type=submit]").click();
    assertThat(page.locator("#change-result")).containsText("node-12 goes to Jar");
    answer(lists);
    page.waitForFunction("() => callsUnderWay === 0");
    // Until a later answer is read, the page has taken the earlier one.
    page.evaluate("() => fetch('/api/health').then((answer) => answer.json())");
    Locator placements = page.locator("#placements > li");
    assertThat(placements).hasCount(1);
    page.locator("#change-result").getByText("Undo").click();
    assertThat(placements).hasCount(0);
  }

  private static void answer(Map<Route, APIResponse> held) {
    held.forEach((route, answer) -> route.fulfill(new Route.FulfillOptions().setResponse(answer)));
  }

  private static String local(Instant instant) {
    return DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm")
        .format(instant.atZone(ZoneId.systemDefault()));
  }

  private static double heat(String container) {
    return service.api().get("/api/containers/" + container).at("/heat/degreeHours").asDouble();
  }

  @Test
  void aCalibrationIsGuidedLeftAndTakenUpAgain() {
    Page page = open(390, "?sensor=node-6");
    page.getByText("Calibrate by points").press("Enter");
    page.getByLabel("Step by step").selectOption("warm");
    page.getByText("Start", new Page.GetByTextOptions().setExact(true)).click();
    assertThat(page.locator(".guide ol li")).hasCount(2);
    page.getByText("It is in place").click();
    assertThat(page.locator(".guide")).containsText("Settled at 31.00 °C");
    assertThat(page.locator(".guide")).containsText("It needs");
    assertThat(page.locator(".guide button[type=submit]")).isDisabled();

    // Its time in place is over: it was left half an hour ago.
    page.evaluate(
        "() => { const key = 'tepidarium.calibration.node-6';"
            + " const state = JSON.parse(localStorage.getItem(key));"
            + " for (const at of ['begunAt', 'placedAt']) state[at] -= 30 * 60000;"
            + " localStorage.setItem(key, JSON.stringify(state)); }");
    page.reload();
    page.locator("header").getByText("°F").click();
    assertThat(page.locator(".guide")).containsText("Settled at 87.80 °F");
    page.locator("header").getByText("°C").click();
    page.getByLabel("The better instrument shows (°C)").fill("30,6");
    page.getByLabel("Its uncertainty (°C)").fill("0.05");
    browser.assertNothingWrong(page);
    page.getByText("Take 31.00 °C").click();
    assertThat(page.locator(".guide")).containsText("Taken. All figures are calculated again");
    assertThat(page.locator(".guide")).containsText("− 0.40 °C");
    page.reload();
    page.getByText("Calibrate by points").press("Enter");
    assertThat(page.getByLabel("Step by step")).isVisible();
    assertThat(page.locator(".correction")).containsText("31.00 °C becomes 30.60 °C");
  }
}
