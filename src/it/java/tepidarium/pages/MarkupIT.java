package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Api;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;
import tepidarium.web.ApiDocument;

/**
 * Every page, with markup in every text that a person, a sensor or a file can enter: no page makes
 * an element of it, runs it, or asks the browser to.
 */
class MarkupIT {
  /** The form to sign in shows no text of others, and this service names no other site. */
  private static final Set<String> WITHOUT_TEXTS = Set.of("login", "sites");

  /**
   * Texts that no page receives as they were entered: secrets; ids of containers and meanings of
   * columns, of which the service accepts known ones only; and settings, which come back under the
   * name value.
   */
  private static final Set<String> NOT_SHOWN =
      Set.of("password", "current", "base64", "container", "columns", "settings");

  private static final Page.WaitForConditionOptions LONG =
      new Page.WaitForConditionOptions().setTimeout(60_000);

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;
  private static MarkedAnswers answers;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    browser = Browser.start();
    answers = new MarkedAnswers(new ApiDocument(service.api().get("/api/openapi.json")));
    Grower grower = new Grower(service.api());
    grower.awaitBroker();
    Publisher sensor = Publisher.to(service.mqttPort());
    SmallSeason season = new SmallSeason(grower, sensor);
    season.fill();
    sensor.send("tepidarium/in-closet", "{\"temperature\":\"<b>warm</b>\"}");
    sensor.send("other/box/state", "{\"air\":{\"temp\":\"<b>86</b>\"}}");
    enter(season);
  }

  /** The texts that the small season does not have. */
  private static void enter(SmallSeason season) {
    Api api = service.api();
    new Grower(api).container("Spare", ",\"room\":\"Cellar\"");
    api.put("/api/sensors/in-closet/details", "{\"name\":\"Left\",\"note\":\"at the wall\"}");
    api.post(
        "/api/lots",
        "{\"species\":\"lychee\",\"seeds\":20,\"gatheredAt\":\"%s\",\"from\":\"plant\",\"name\":\"A\",\"place\":\"B\",\"kept\":\"C\",\"remark\":\"D\",\"accession\":\"E\"}"
            .formatted(season.day(-1)));
    api.post("/api/groups/3-1/checks", "{\"germinated\":1,\"by\":\"Ida\",\"remark\":\"wet\"}");
    api.post("/api/groups/3-1/name", "{\"name\":\"North\"}");
    api.post("/api/sowings/3/name", "{\"name\":\"Late\"}");
    api.post(
        "/api/seasons",
        "{\"name\":\"Spring\",\"from\":\"%s\",\"to\":\"%s\",\"remark\":\"warm\"}"
            .formatted(season.day(0), season.day(9)));
    api.post("/api/people", "{\"name\":\"Ada\",\"password\":\"heat and moss\",\"role\":\"look\"}");
    api.post("/api/tokens", "{\"name\":\"logger\",\"role\":\"look\",\"days\":30}");
    api.post(
        "/api/mappings",
        "{\"topic\":\"garden/{sensor}\",\"temperature\":{\"pointer\":\"/t\",\"unit\":\"°F\"},\"at\":\"/time\"}");
    api.put(
        "/api/import-profiles/box",
        "{\"sensor\":\"box\",\"zone\":\"UTC\",\"delimiter\":\";\",\"encoding\":\"UTF-8\",\"columns\":{\"temp\":\"temperature\"}}");
    upload(
        "/api/imports?name=box.csv",
        "application/octet-stream",
        "time;temp\n2026-03-01 06:00;29\n");
    importTables(season);
    alert();
    api.post(
        "/api/sensor-accounts",
        "{\"name\":\"lamp\",\"topics\":[\"lamp/#\"],\"reads\":[\"tepidarium/alert/+/#\"]}");
  }

  /** Markup that comes in by the tables of the record, and is stored as it is. */
  private static void importTables(SmallSeason season) {
    String entry = "4f9c7b0e-6f4b-4c0a-9d65-0d9a3f6f2b11";
    String now = Instant.now().truncatedTo(ChronoUnit.MILLIS).toString();
    table(
        "species",
        "species,name,base,baseSource",
        "pine",
        stored("species"),
        "15",
        stored("source"));
    table(
        "lots",
        "lot,species,name,seeds,gatheredAt,from",
        "90",
        "pine",
        stored("lot"),
        "20",
        season.day(-1).toString(),
        "plant");
    table(
        "entries",
        "entry,sowing,at,recordedAt,kind,group,germinated,by,remark",
        entry,
        "3",
        now,
        now,
        "checked",
        "3-1",
        "0",
        stored("by"),
        stored("remark"));
  }

  private static String stored(String what) {
    return what + "-of-the-table\"'><b class=owned>";
  }

  private static void table(String name, String head, String... cells) {
    String line =
        Stream.of(cells)
            .map(cell -> '"' + cell.replace("\"", "\"\"") + '"')
            .collect(Collectors.joining(","));
    upload("/api/import/" + name, "text/csv", head + "\r\n" + line + "\r\n");
  }

  private static void upload(String path, String type, String content) {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(service.url() + path))
            .header("Content-Type", type)
            .POST(HttpRequest.BodyPublishers.ofString(content))
            .build();
    try {
      HttpResponse<String> answer =
          HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofString());
      assertTrue(answer.statusCode() < 300, answer.body());
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** A container that is too cold now, with the words of those who saw it. */
  private static void alert() {
    new Grower(service.api()).place("cold-box", "tray", Instant.now().minusSeconds(3_600));
    Publisher sensor = Publisher.to(service.mqttPort());
    for (int minutes : new int[] {15, 11, 6, 1}) {
      Instant at = Instant.now().minusSeconds(60L * minutes);
      sensor.send("tepidarium/cold-box", "{\"temperature\":24.5,\"at\":\"" + at + "\"}");
    }
    Api api = service.api();
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> !api.get("/api/alerts?state=active").isEmpty());
    api.post(alertPath() + "/acknowledge", "{\"by\":\"Ida\"}");
    pauseAlert();
  }

  private static String alertPath() {
    return "/api/alerts/" + service.api().get("/api/alerts?state=active").at("/0/id").asInt();
  }

  private static void pauseAlert() {
    service
        .api()
        .post(alertPath() + "/shelve", "{\"by\":\"Ida\",\"minutes\":60,\"reason\":\"moving\"}");
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  @Test
  void noPageMakesMarkupOfATextOrRunsIt() throws IOException {
    List<String> faults = new ArrayList<>();
    Page page = browser.page(1280);
    page.onDialog(dialog -> faults.add("a dialog: " + dialog.message()));
    page.onResponse(
        answer -> {
          if (answer.status() >= 400) {
            faults.add(answer.status() + " for " + answer.url());
          }
        });
    answers.changeAnswersTo(page);
    for (EveryPage.Visit visit : EveryPage.all()) {
      String name = visit.name();
      page.navigate(service.url() + visit.path());
      EveryPage.awaitLoaded(page);
      if (!WITHOUT_TEXTS.contains(name)) {
        assertThat(page.locator("body")).containsText("class=owned");
      }
      EveryPage.unfold(page);
      faults.addAll(faultsOf(page, name));
    }
    assertEquals(List.of(), faults);
    assertEquals(List.of(), browser.complaints());
    Set<String> missing = new TreeSet<>(answers.entered());
    missing.removeAll(answers.marked());
    missing.removeAll(NOT_SHOWN);
    assertEquals(Set.of(), missing, "texts that no page received");
  }

  @Test
  void noPageMakesMarkupOfAnImportedTable() {
    Page page = browser.page(1280);
    page.navigate(service.url() + EveryPage.path("tally"));
    for (String what : List.of("species", "lot", "remark")) {
      page.waitForCondition(
          () -> {
            EveryPage.unfold(page);
            return page.locator("body").textContent().contains(stored(what));
          },
          LONG);
    }
    assertEquals(List.of(), faultsOf(page, "tally"));
  }

  /** The answers come as they are, and the events of the stream with markup. */
  @Test
  void noPageMakesMarkupOfTheLiveStream() {
    Publisher sensor = Publisher.to(service.mqttPort());
    for (String name : List.of("shelf", "container", "alerts", "sensors")) {
      Page page = browser.page(1280);
      answers.markEvents(page);
      page.navigate(service.url() + EveryPage.path(name));
      EveryPage.awaitLoaded(page);
      assertThat(page.locator("body")).not().containsText(MarkedAnswers.MARKUP);
      MarkedAnswers.beginMarkingEvents(page);
      page.waitForCondition(
          () -> {
            sensor.send("tepidarium/in-closet", "{\"temperature\":29.1}");
            pauseAlert();
            return page.locator("body").textContent().contains(MarkedAnswers.MARKUP);
          },
          LONG);
      assertEquals(List.of(), faultsOf(page, name));
    }
    assertEquals(List.of(), browser.complaints());
  }

  private static List<String> faultsOf(Page page, String name) {
    List<String> faults = new ArrayList<>();
    if (page.locator(".owned, img[src=x], [onerror]").count() > 0) {
      faults.add(name + " made an element of a text");
    }
    if (page.title().equals("owned")) {
      faults.add(name + " ran a script");
    }
    return faults;
  }
}
