package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;

/**
 * A service in Berlin and a browser in New York, over the night in which the clocks of Berlin go
 * back: all times and date controls are in one zone, which the page names.
 */
class TimeZoneIT {
  /** 02:30 in Berlin, for the second time in that night; 21:30 of the day before in New York. */
  private static final Instant SOWN = Instant.parse("2026-10-25T01:30:00Z");

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start() {
    service =
        RunningService.start(
            RunningService.config(
                data, "embedded", Ports.free(), Map.of("timeZone", "Europe/Berlin")),
            Clock.tickMillis(ZoneOffset.UTC));
    new Grower(service.api()).container("Jar", "");
    service
        .api()
        .post(
            "/api/lots",
            "{\"species\":\"cacao\",\"seeds\":90,\"gatheredAt\":\"2026-10-20T06:00:00Z\"}");
    service
        .api()
        .post(
            "/api/sowings",
            "{\"lot\":1,\"groups\":[{\"container\":\"jar\",\"seeds\":20}],\"at\":\""
                + SOWN
                + "\"}");
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  @Test
  void timesAreInTheZoneThatThePageNames() {
    Page page = browser.pageIn("America/New_York");
    page.navigate(service.url() + "/tally.html");
    assertThat(page.locator("#zone")).containsText("Times are in the zone Europe/Berlin.");
    assertThat(page.locator(".sowing .about")).containsText("Sun 25 Oct 02:30");
    check(page, "2026-10-25T03:10", "Europe/Berlin");
    assertEquals("2026-10-25T02:10:00Z", lastEntry());

    page.locator("#change-zone").click();
    assertThat(page.locator("#zone")).containsText("Times are in the zone America/New_York.");
    assertThat(page.locator(".sowing .about")).containsText("Sat 24 Oct 21:30");
    check(page, "2026-10-24T23:20", "America/New_York");
    assertEquals("2026-10-25T03:20:00Z", lastEntry());

    page.navigate(service.url() + "/container.html?id=jar");
    // Days without sensors are days of the service.
    assertThat(page.locator("#extremes-day-help")).hasText("Time zone Europe/Berlin.");
    page.navigate(service.url() + "/files.html");
    assertThat(page.locator("#zone")).containsText("Times are in the zone America/New_York.");
    assertThat(page.locator("#from + .help")).hasText("Time zone America/New_York.");
    page.locator("#change-zone").click();
    assertThat(page.locator("#zone")).containsText("Times are in the zone Europe/Berlin.");
    assertThat(page.locator("#from + .help")).hasText("Time zone Europe/Berlin.");
    browser.assertNothingWrong(page);
  }

  private static void check(Page page, String typed, String zone) {
    page.locator("[data-act=check]").click();
    page.locator("#sheet summary").press("Enter");
    assertThat(page.locator("#sheet .field:has([name=at])")).containsText("Time zone " + zone);
    page.locator("#sheet [name=at]").fill(typed);
    page.locator("#sheet [type=submit]").click();
    assertThat(page.locator("#said")).containsText("Written down");
  }

  private static String lastEntry() {
    var entries = service.api().get("/api/sowings/1/entries");
    return entries.get(entries.size() - 1).path("at").asText();
  }
}
