package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/** What the service refuses, as a German page says it. */
class GermanRefusalsIT {
  private static final Pattern ENGLISH =
      Pattern.compile("\\b(the|of|is|are|not|and|with|at|no|has|have|been|must|there|from)\\b");

  /** The words of a page, and those of the service. */
  private static final String REFUSED =
      """
      async ([method, path, body, type]) => {
        const { call } = await import('/shared/call.js');
        try {
          await call(method, path, type ? { body, type } : { body: JSON.parse(body) });
        } catch (problem) {
          return { words: problem.message, detail: problem.answer.detail };
        }
        return { words: 'not refused', detail: '' };
      }
      """;

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;
  private static SmallSeason season;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    browser = Browser.start();
    season = SmallSeason.in(service);
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Page open(String path) {
    Page page = browser.page(390, "de-DE");
    page.navigate(service.url() + path);
    EveryPage.awaitLoaded(page);
    return page;
  }

  @Test
  void aFormNamesTheFieldByItsLabel() {
    Page page = open(EveryPage.path("container"));
    page.locator("#settings > details").first().locator("summary").first().click();
    Locator form = page.locator("#edit-container");
    form.locator("[name=base]").fill("99");
    form.locator("[name=ceiling]").fill("");
    form.locator("[type=submit]").click();
    assertThat(form.locator(".problem"))
        .hasText("Bitte prüfen: Basistemperatur. Zwischen −20 und 60 °C.");
    form.locator("[name=base]").fill("15,5");
    form.locator("[name=name]").fill("x".repeat(61));
    form.locator("[type=submit]").click();
    assertThat(form.locator(".problem"))
        .hasText("Bitte prüfen: Name. Nötig sind 1 bis 60 Zeichen.");
  }

  @Test
  void aSpanInTheWrongOrderIsSaid() {
    Page page = open(EveryPage.path("season"));
    page.locator("#from").fill(season.day(6).toString().substring(0, 10));
    page.locator("#to").fill(season.day(2).toString().substring(0, 10));
    page.locator("#choice [type=submit]").click();
    assertThat(page.locator("main")).containsText("Das Ende muss nach dem Beginn liegen.");
  }

  @Test
  void theWrongLinesOfAFileAreSaid() throws IOException {
    Page page = open("/files.html");
    Path file = data.resolve("lots.csv");
    page.locator("#take [type=file]")
        .setInputFiles(
            Files.writeString(file, "lot,species,seeds\r\n1,lychee,many\r\n,lychee,5\r\n"));
    page.locator("#take [type=submit]").click();
    assertThat(page.locator("#take-output [role=alert]")).containsText("Nichts wurde eingelesen:");
    assertThat(page.locator("#take-output li"))
        .hasText(
            new String[] {
              "Zeile 2: Bitte prüfen: Samen. Eine Zahl ist nötig, nicht „many“.",
              "Zeile 3: Bitte prüfen: Saatgutpartie. Eine ganze Zahl, mindestens 1."
            });
  }

  /** One call for each way in which a form can be filled wrongly. */
  @Test
  void noRefusalIsEnglish() {
    Page page = open("/");
    List<String> english = new ArrayList<>();
    for (List<String> call : calls()) {
      Map<?, ?> answer = (Map<?, ?>) page.evaluate(REFUSED, call);
      String words = String.valueOf(answer.get("words"));
      assertNotEquals("not refused", words, call.toString());
      if (ENGLISH.matcher(words).find() || words.contains("undefined")) {
        english.add(call.subList(0, 2) + ": " + words);
      }
    }
    assertEquals(List.of(), english);
  }

  @Test
  void aContradictionNamesTheOtherEntry() {
    Page page = open("/");
    String body = "{\"germinated\":38,\"at\":\"%s\"}".formatted(season.day(2));
    Map<?, ?> answer =
        (Map<?, ?>) page.evaluate(REFUSED, List.of("POST", "/api/groups/1-1/checks", body));
    String words = String.valueOf(answer.get("words"));
    assertTrue(
        words.startsWith("Wegen dieses Eintrags wäre ein anderer unmöglich: die Kontrolle, "),
        words);
    assertTrue(words.endsWith("6 eingetragen, 2 vorhanden."), words);
  }

  private static List<List<String>> calls() {
    String future = Instant.now().plus(Duration.ofDays(3)).toString();
    String sensor = "/api/sensors/in-closet";
    return List.of(
        post("/api/containers", "{\"name\":\" \",\"kind\":\"jar\"}"),
        post("/api/containers", "{\"name\":\"A\",\"kind\":\"jar\",\"base\":30,\"ceiling\":20}"),
        put("/api/containers/gone", "{\"name\":\"A\",\"kind\":\"jar\"}"),
        List.of("DELETE", "/api/containers/closet", "{}"),
        post("/api/containers/closet/openings", "{\"minutes\":0}"),
        post(
            "/api/containers/closet/openings", "{\"from\":\"%s\",\"minutes\":5}".formatted(future)),
        post(
            "/api/containers/closet/openings",
            "{\"from\":\"%s\",\"until\":\"%s\"}".formatted(season.day(3), season.day(2))),
        put("/api/containers/closet/day-extremes/2000-01-01", "{\"min\":1,\"max\":2}"),
        put("/api/containers/closet/day-extremes/2026-01-01", "{\"min\":5,\"max\":2}"),
        put("/api/containers/closet/alert-rules", "{\"rules\":{\"silent\":{\"limit\":-1}}}"),
        List.of("PATCH", "/api/settings", "{\"settings\":{\"silentAfterMinutes\":0}}"),
        post(sensor + "/move", "{\"container\":\"closet\"}"),
        post(
            sensor + "/move", "{\"container\":\"tray\",\"from\":\"%s\"}".formatted(season.day(-5))),
        post(sensor + "/replace", "{}"),
        post(sensor + "/replace", "{\"by\":\"in-closet\"}"),
        put(
            sensor + "/placements",
            "{\"placements\":[{\"container\":\"tray\",\"from\":\"%1$s\",\"until\":\"%2$s\"},"
                    .formatted(season.day(1), season.day(3))
                + "{\"container\":\"closet\",\"from\":\"%s\"}]}".formatted(season.day(2))),
        put(sensor + "/calibration", "{\"temperatureOffset\":11}"),
        post(
            sensor + "/calibration-points",
            "{\"quantity\":\"temperature\",\"method\":\"comparison\",\"reading\":30,\"trueValue\":30,"
                + "\"uncertainty\":-1}"),
        post(
            sensor + "/calibration-points",
            "{\"quantity\":\"temperature\",\"method\":\"comparison\",\"reading\":300,\"trueValue\":30,"
                + "\"uncertainty\":0.1}"),
        post("/api/sensor-accounts", "{\"name\":\"node 9\"}"),
        post("/api/sensor-accounts", "{\"name\":\"n\",\"topics\":[\"a/#/b\"]}"),
        post("/api/species", "{\"name\":\"\"}"),
        List.of("DELETE", "/api/species/lychee", "{}"),
        post(
            "/api/lots",
            "{\"species\":\"lychee\",\"seeds\":0,\"gatheredAt\":\"%s\",\"from\":\"plant\"}"
                .formatted(season.day(0))),
        post("/api/sowings", "{\"lot\":1,\"groups\":[{\"container\":\"closet\",\"seeds\":5000}]}"),
        post("/api/sowings", "{\"lot\":1,\"groups\":[]}"),
        post(
            "/api/sowings",
            "{\"lot\":1,\"groups\":[{\"container\":\"closet\",\"seeds\":5}],\"at\":\"%s\"}"
                .formatted(season.day(-3))),
        post("/api/groups/1-1/checks", "{\"germinated\":41}"),
        post(
            "/api/groups/1-1/checks", "{\"germinated\":1,\"at\":\"%s\"}".formatted(season.day(-2))),
        post("/api/groups/1-1/moves", "{\"to\":\"closet\"}"),
        post("/api/groups/1-1/moves", "{\"to\":\"tray\",\"ungerminated\":0,\"germinated\":0}"),
        post("/api/groups/1-1/checks", "{\"germinated\":1,\"at\":\"0026-03-01T12:00:00Z\"}"),
        post("/api/seasons", "{\"name\":\"\"}"));
  }

  private static List<String> post(String path, String body) {
    return List.of("POST", path, body);
  }

  private static List<String> put(String path, String body) {
    return List.of("PUT", path, body);
  }
}
