package tepidarium.bench;

import com.google.gson.JsonObject;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * The shelf with many containers in a browser of phone width, with its processor slowed down four
 * times, while readings arrive: time until it can be used, and how long the tasks of the page's
 * main thread take according to the browser's own trace, in processor time of that thread, so that
 * other programs of the machine do not count.
 */
final class ShelfPage {
  private static final int WIDTH = 390;
  private static final int HEIGHT = 844;
  private static final int SLOWED = 4;
  private static final int READINGS_PER_SECOND = 3;
  private static final int SECONDS = 10;

  /**
   * Writes to the console once the page is usable: a screen of containers, each with its
   * temperature, and the search takes a press. A question of the test program would run a large
   * script of its own in the page, for more than 100 ms.
   */
  private static final String TELL_USABLE =
      """
      const look = () => {
        const usable = document.querySelectorAll('#containers article').length >= 8
          && document.getElementById('view')?.hidden === false;
        if (usable) console.log('usable ' + performance.now());
        else requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
      """;

  private static final String USABLE = "usable ";

  private static final Path CHROMIUM = Path.of("/usr/bin/chromium-headless-shell");

  private final Path folder;
  private final List<Integer> counts;

  ShelfPage(Path folder, List<Integer> counts) {
    this.folder = folder;
    this.counts = counts;
  }

  void run(Report report) {
    for (int count : counts) {
      Site site = Site.fresh(folder.resolve("shelf-page"));
      site.plant(count, 1);
      int port = Ports.free();
      try (ServiceProcess service = site.start(port, Site.EMBEDDED, Site.LARGE, Map.of());
          Load load = new Load(port, 1, count);
          Playwright playwright = Playwright.create();
          Browser browser = playwright.chromium().launch(options())) {
        load.send(2, count);
        EndToEnd.awaitStored(service.grower(), 2L * count);
        measure(service, port, count, browser, report);
      }
    }
  }

  static BrowserType.LaunchOptions options() {
    return new BrowserType.LaunchOptions()
        .setExecutablePath(CHROMIUM)
        .setHeadless(true)
        .setArgs(List.of("--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"));
  }

  private static void measure(
      ServiceProcess service, int port, int count, Browser browser, Report report) {
    try (BrowserContext context =
            browser.newContext(
                new Browser.NewContextOptions().setViewportSize(WIDTH, HEIGHT).setHasTouch(true));
        Sensor sensor = new Sensor(port, "bench-live")) {
      Page page = context.newPage();
      page.addInitScript("{" + TELL_USABLE + "}");
      // The second visit counts: the first fills the browser's cache, as on a phone in use.
      usableMs(page, service);
      CDPSession session = context.newCDPSession(page);
      JsonObject rate = new JsonObject();
      rate.addProperty("rate", SLOWED);
      session.send("Emulation.setCPUThrottlingRate", rate);

      // What the page before has to clean up does not count.
      page.navigate("about:blank");
      browser.startTracing(page, new Browser.StartTracingOptions().setCategories(Tasks.TRACED));
      double usable = usableMs(page, service) / 1000;
      Wait.pause(2_000);
      Tasks loading = Tasks.of(browser.stopTracing());

      browser.startTracing(page, new Browser.StartTracingOptions().setCategories(Tasks.TRACED));
      publish(sensor, count);
      Tasks living = Tasks.of(browser.stopTracing());
      String what = String.format(Locale.ROOT, "shelf with %,d containers on a slow phone", count);
      report.figure(what + ": usable", "under 1 s", Report.figure(usable) + " s");
      report.figure(what + ": longest task while it loads", "under 50 ms", ms(loading.longestMs()));
      report.figure(
          what + ": longest task in 10 s at 3 readings/s", "under 50 ms", ms(living.longestMs()));
      report.figure(
          what + ": main thread busy in 10 s at 3 readings/s",
          "under 5 %",
          Report.figure(living.sumMs() / (SECONDS * 1000) * 100) + " %");
    }
  }

  /** Opens the shelf; returns the time from the start of the navigation until it is usable. */
  private static double usableMs(Page page, ServiceProcess service) {
    String told =
        page.waitForConsoleMessage(
                new Page.WaitForConsoleMessageOptions()
                    .setPredicate(message -> message.text().startsWith(USABLE)),
                () -> page.navigate(service.grower().api().base()))
            .text();
    return Double.parseDouble(told.substring(USABLE.length()));
  }

  private static String ms(double ms) {
    return Report.figure(ms) + " ms";
  }

  /** Publishes for ten seconds, each reading for another container. */
  private static void publish(Sensor sensor, int count) {
    long start = System.currentTimeMillis();
    for (int i = 0; i < SECONDS * READINGS_PER_SECOND; i++) {
      String payload =
          "{\"temperature\":" + (30 + i % 20 / 10.0) + ",\"humidity\":94.5,\"light\":0}";
      sensor.publish(Load.topic(i * 7 % count), payload.getBytes(StandardCharsets.UTF_8));
      sensor.flush();
      sensor.settle();
      long next = start + (i + 1) * 1000L / READINGS_PER_SECOND;
      Wait.pause(Math.max(0, next - System.currentTimeMillis()));
    }
  }
}
