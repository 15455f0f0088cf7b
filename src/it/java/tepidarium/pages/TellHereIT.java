package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** An old tablet on which a page is left open: it is heard whichever page that is, and once. */
class TellHereIT {
  private static final Duration SOON = Duration.ofSeconds(30);

  /** A sound is two tones. */
  private static final int TONES = 2;

  /** Notes what a page lets be heard and seen, besides letting it be so. */
  private static final String NOTING =
      """
      globalThis.noted = { tones: 0, shown: [], streams: [] };
      const create = AudioContext.prototype.createOscillator;
      AudioContext.prototype.createOscillator = function () {
        noted.tones++;
        return create.call(this);
      };
      globalThis.Notification = class extends Notification {
        constructor(title, options) {
          super(title, options);
          noted.shown.push(title);
        }
      };
      globalThis.EventSource = class extends EventSource {
        constructor(url) {
          super(url);
          noted.streams.push(this);
        }
      };
      """;

  @TempDir private Path data;
  private RunningService service;
  private Grower grower;
  private Browser browser;

  @BeforeEach
  void start() {
    Map<String, ?> collectNothing = Map.of("notices", Map.of("collectSeconds", 0));
    service =
        RunningService.start(
            RunningService.config(data, "embedded", Ports.free(), collectNothing),
            Clock.tickMillis(ZoneOffset.UTC));
    grower = new Grower(service.api());
    browser = Browser.withNotifications();
  }

  @AfterEach
  void stop() {
    browser.close();
    service.close();
  }

  @Test
  void shelfAndContainerPagesAnnounceEachNoticeOnceTogether() {
    String jar = grower.container("Jar");
    Page shelf = switchedOn();
    shelf.navigate(service.url() + "/");
    Page container = browser.pageBeside(shelf);
    container.navigate(service.url() + "/container.html?id=" + jar);
    List<Page> open = List.of(shelf, container);
    for (Page page : open) {
      assertThat(page.locator("#live")).hasAttribute("data-state", "live");
      press(page);
      assertThat(page.locator("#press")).isHidden();
    }

    for (int told = 1; told <= 3; told++) {
      service.api().post("/api/notifiers/page/test", "");
      int sounds = told;
      await().atMost(SOON).until(() -> tones(open) >= TONES * sounds && shown(open) >= sounds);
      assertEquals(TONES * told, tones(open), "tones of both pages");
      assertEquals(told, shown(open), "notifications of both pages");
    }
    open.forEach(browser::assertNothingWrong);
  }

  @Test
  void aReopenedPageAsksForThePressThatSoundRequires() {
    Page alerts = switchedOn();
    Page shelf = browser.pageBeside(alerts);
    shelf.navigate(service.url() + "/");
    assertThat(shelf.locator("#press")).isVisible();
    press(shelf);
    assertThat(shelf.locator("#press")).isHidden();
    browser.assertNothingWrong(shelf);
  }

  @Test
  void soundSwitchedOffOnOnePageIsOffOnTheOthers() {
    Page alerts = switchedOn();
    Page shelf = browser.pageBeside(alerts);
    shelf.navigate(service.url() + "/");
    assertThat(shelf.locator("#press")).isVisible();
    alerts.locator("#tell").click();
    assertThat(alerts.locator("#telling")).containsText("stays quiet");
    assertThat(shelf.locator("#press")).isHidden();
  }

  @Test
  void aNoticeSentDuringAnInterruptionIsAnnouncedOnReconnection() {
    Page shelf = switchedOn();
    shelf.navigate(service.url() + "/");
    Locator live = shelf.locator("#live");
    assertThat(live).hasAttribute("data-state", "live");
    press(shelf);
    assertThat(shelf.locator("#press")).isHidden();

    shelf.route("**/api/live", Route::abort);
    shelf.evaluate("() => noted.streams.at(-1).dispatchEvent(new Event('error'))");
    assertThat(live).hasAttribute("data-state", "down");
    coldJar();
    await().atMost(SOON).until(() -> service.api().get("/api/notices").size() == 1);
    assertEquals(0, shown(List.of(shelf)));
    shelf.unroute("**/api/live");
    await().atMost(SOON).until(() -> shown(List.of(shelf)) == 1);
    awaitOneSound(shelf);
    assertTrue(
        String.valueOf(shelf.evaluate("() => noted.shown[0]")).startsWith("Jar is too cold"));
  }

  private void coldJar() {
    grower.awaitBroker();
    grower.place("jar-1", grower.container("Jar"), Instant.now().minusSeconds(1_200));
    for (int minutes : new int[] {15, 11, 6, 1}) {
      Publisher.to(service.mqttPort())
          .send("tepidarium/jar-1", "{\"temperature\":24.5,\"age\":" + minutes * 60 + '}');
    }
  }

  /** The Alerts page, on which telling was switched on; the sound of the switch is not counted. */
  private Page switchedOn() {
    Page page = browser.page(390);
    page.context().grantPermissions(List.of("notifications"));
    page.context().addInitScript(NOTING);
    page.navigate(service.url() + "/alerts.html");
    assertThat(page.locator("#part-open")).isVisible();
    Locator tell = page.locator("#tell");
    tell.click();
    assertThat(page.locator("#telling")).containsText("A sound and a notification");
    awaitOneSound(page);
    return page;
  }

  private static void awaitOneSound(Page page) {
    await().atMost(SOON).until(() -> tones(List.of(page)) >= TONES);
    assertEquals(TONES, tones(List.of(page)));
  }

  private static void press(Page page) {
    page.locator("h1").first().click();
  }

  private static int tones(List<Page> pages) {
    return sum(pages.stream(), "() => noted.tones");
  }

  private static int shown(List<Page> pages) {
    return sum(pages.stream(), "() => noted.shown.length");
  }

  private static int sum(Stream<Page> pages, String expression) {
    return pages.mapToInt(page -> (int) page.evaluate(expression)).sum();
  }
}
