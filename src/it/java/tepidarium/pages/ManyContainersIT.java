package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Request;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The shelf of a nursery on a phone: groups, search, actions for many, and what a reading costs.
 */
class ManyContainersIT extends OnEmptyService {
  private static final int WIDTH = 390;
  private static final int HEIGHT = 844;

  /** Articles that lie in the window as a whole. */
  private static final String WHOLLY_VISIBLE =
      "() => [...document.querySelectorAll('#containers article')].map((one) =>"
          + " one.getBoundingClientRect()).filter((box) => box.top >= 0"
          + " && box.bottom <= innerHeight).length";

  /** Notes the container of each element that changes from then on. */
  private static final String WATCH_CHANGES =
      "() => { window.changed = []; new MutationObserver((changes) => { for (const { target } of"
          + " changes) { const element = target.nodeType === 1 ? target : target.parentElement;"
          + " window.changed.push(element?.closest('article')?.dataset.container ?? 'the list'); }"
          + " }).observe(document.getElementById('containers'), { subtree: true, childList: true,"
          + " characterData: true, attributes: true }); }";

  private Page open(String path) {
    Page page = browser.page(WIDTH);
    page.setViewportSize(WIDTH, HEIGHT);
    page.navigate(service.url() + path);
    assertThat(page.locator("#live")).hasAttribute("data-state", "live");
    return page;
  }

  /** Containers in two rooms, the last one in none. */
  private void plant(int count) {
    for (int i = 1; i <= count; i++) {
      String room = i == count ? "" : ",\"room\":\"Bench " + (i % 2 + 1) + "\"";
      grower.container("Jar " + i, room);
    }
  }

  @Test
  void sixRowsFitOnThePhone() {
    plant(14);
    Page page = open("/");
    Locator rows = page.locator("#containers[data-density=row] article");
    assertThat(rows).hasCount(14);
    int visible = (Integer) page.evaluate(WHOLLY_VISIBLE);
    assertTrue(visible >= 6, visible + " rows are visible");
    page.locator("#view-more").click();
    page.locator("#view-density").selectOption("tile");
    page.locator("#view-more").click();
    int tiles = (Integer) page.evaluate(WHOLLY_VISIBLE);
    assertTrue(tiles > visible, tiles + " tiles are visible");
    page.locator("#view-more").click();
    page.locator("#view-density").selectOption("card");
    assertThat(page.locator("#containers .card")).hasCount(14);
    assertThat(page.locator("#containers .line")).hasCount(0);
    browser.assertNothingWrong(page);
  }

  @Test
  void groupsStayAndSearchFindsRoomsAndSpecies() {
    plant(5);
    grower.api().post("/api/lots", SeedBodies.lot("lychee"));
    grower.api().post("/api/sowings", SeedBodies.sowing(1, "jar-4", 9));
    Page page = open("/");
    page.locator("#view-more").click();
    page.locator("#view-group").selectOption("room");
    Locator titles = page.locator(".shelf-title");
    assertThat(titles)
        .hasText(
            new String[] {
              "Bench 1: 2 containers", "Bench 2: 2 containers", "No room: 1 container"
            });
    page.locator("#view-search").fill("lych");
    assertThat(page.locator("#containers .name")).hasText(new String[] {"Jar 4"});
    page.locator("#view-search").fill("bench 2");
    assertThat(page.locator("#containers .name")).hasText(new String[] {"Jar 1", "Jar 3"});
    assertThat(page.locator("#shown")).containsText("2 of 5 containers");
    assertThat(page).hasURL(Pattern.compile("search=bench\\+2"));
    browser.assertNothingWrong(page);

    page.navigate(service.url() + "/");
    assertThat(titles).hasCount(3);
    page.locator("#view-more").click();
    page.locator("#view-room").selectOption("Bench 1");
    assertThat(page.locator("#containers .name")).hasText(new String[] {"Jar 2", "Jar 4"});
  }

  /** The bounds lie a fifth above what was loaded when they were written. */
  @Test
  void theShelfLoadsWhatItShowsAndNoMore() {
    plant(300);
    for (int i = 1; i <= 300; i++) {
      grower.place("s-" + i, "jar-" + i, Instant.now().minusSeconds(600));
    }
    grower.place("outside", "room", Instant.now().minusSeconds(600));
    Page page = browser.page(WIDTH);
    Map<String, Request> loaded = new ConcurrentHashMap<>();
    page.onRequestFinished(request -> loaded.putIfAbsent(request.url(), request));
    page.navigate(service.url() + "/");
    assertThat(page.locator("#containers article")).hasCount(300);
    page.waitForFunction("() => callsUnderWay === 0");
    Map<String, Integer> bytes = new TreeMap<>();
    loaded.forEach((url, request) -> bytes.put(url, request.response().body().length));
    assertTrue(bytes.size() <= 17, bytes.toString());
    assertTrue(bytes.values().stream().mapToInt(one -> one).sum() < 590_000, bytes.toString());

    page.locator("[data-step=place]").click();
    assertThat(page.locator("#place-which option")).hasCount(301);
  }

  @Test
  void theFirstScreenIsAskedForOnceAndTheRestOnceTheStreamIsOpen() {
    plant(30);
    Page page = browser.page(WIDTH);
    List<String> asked = new CopyOnWriteArrayList<>();
    page.onRequest(request -> asked.add(request.url().substring(service.url().length())));
    page.navigate(service.url() + "/");
    assertThat(page.locator("#containers article")).hasCount(30);
    page.waitForFunction("() => callsUnderWay === 0");
    String script = "/scripts/en/shelf.js";
    List<String> order =
        asked.stream().filter(url -> url.matches("/api/(live|containers.*)|" + script)).toList();
    assertEquals(
        List.of(
            "/api/containers?limit=24&sort=worst",
            script,
            "/api/live",
            "/api/containers?limit=300&sort=worst"),
        order);
    browser.assertNothingWrong(page);

    // Another order has another first screen, which its own first answer shows.
    asked.clear();
    page.navigate(service.url() + "/?sort=name");
    assertThat(page.locator("#containers article")).hasCount(30);
    assertTrue(asked.contains("/api/containers?limit=300&sort=name"), asked.toString());
  }

  @Test
  void aReadingTouchesOnlyItsContainer() {
    plant(300);
    grower.place("s-1", "jar-123", Instant.now().minusSeconds(600));
    Page page = open("/?density=row");
    assertThat(page.locator("#containers article")).hasCount(300);
    Locator warm = page.locator("article[data-container=jar-123] .warm");
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> !service.api().get("/api/containers/jar-123").get("sensors").isEmpty());
    publish(30.4);
    assertThat(warm).hasText("30.4 °C");
    assertThat(page.locator("article[data-container=jar-123]")).hasAttribute("data-level", "fine");

    page.evaluate(WATCH_CHANGES);
    publish(31.2);
    assertThat(warm).hasText("31.2 °C");
    assertEquals(
        List.of("jar-123"), page.evaluate("() => [...new Set(window.changed)]"), "touched");
    browser.assertNothingWrong(page);
  }

  private void publish(double temperatureC) {
    sensor.send("tepidarium/s-1", "{\"temperature\":" + temperatureC + ",\"humidity\":91}");
  }

  @Test
  void manyContainersAreActedOnAtOnce() {
    plant(3);
    grower.place("s-1", "jar-1", Instant.now().minusSeconds(1_200));
    for (int minutes : List.of(15, 11, 6, 1)) {
      sensor.send(
          "tepidarium/s-1",
          "{\"temperature\":24.4,\"at\":\"" + Instant.now().minusSeconds(minutes * 60L) + "\"}");
    }
    Page page = open("/");
    assertThat(page.locator("#attention [data-alert]")).hasCount(1);
    page.locator("#choose").click();
    page.locator("#choose-all").click();
    assertThat(page.locator("#bulk .chosen")).hasText("3 chosen");

    act(page, "acknowledge", "1 alert acknowledged");
    assertTrue(only("/api/alerts?state=open").path("acknowledged").booleanValue());
    act(page, "pause", "1 alert paused");
    assertTrue(only("/api/alerts?state=shelved").path("shelvedUntil").isTextual());
    act(page, "open", "3 openings recorded");
    assertTrue(service.api().get("/api/containers/jar-2").path("opening").isObject());

    service.api().call("DELETE", "/api/containers/jar-3", "");
    Locator sheet = sheet(page, "limits");
    sheet.locator("[name=low]").fill("28,5");
    sheet.locator("[type=submit]").click();
    assertThat(sheet.locator(".done")).containsText("Limits of 2 containers changed");
    assertThat(sheet.locator(".problem")).containsText("Not done for 1 of 3");
    assertThat(sheet.locator(".problem li")).containsText("Jar 3: That does not exist any more");
    JsonNode changed = service.api().get("/api/containers/jar-2");
    assertEquals(28.5, changed.at("/band/temperature/low").doubleValue());
    assertEquals(34, changed.at("/band/temperature/high").doubleValue());
    assertEquals("Bench 1", changed.path("room").textValue());
    assertEquals(
        List.of(), browser.complaints().stream().filter(one -> !one.contains("404")).toList());
  }

  private JsonNode only(String path) {
    JsonNode list = service.api().get(path);
    assertEquals(1, list.size(), path);
    return list.get(0);
  }

  private static Locator sheet(Page page, String action) {
    page.locator("#bulk [data-action=" + action + "]").click();
    return page.locator("#bulk-sheet");
  }

  private static void act(Page page, String action, String done) {
    Locator sheet = sheet(page, action);
    sheet.locator("[type=submit]").click();
    assertThat(sheet.locator(".done")).containsText(done);
    sheet.locator("button", new Locator.LocatorOptions().setHasText("Close")).click();
    assertThat(sheet).isHidden();
  }
}
