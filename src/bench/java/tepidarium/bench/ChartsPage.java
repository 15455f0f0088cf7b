package tepidarium.bench;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * Zooms in and out over six weeks, of ten containers on the page Charts and of one on its own page:
 * time until the new stretch is drawn from the samples at hand, time until it is drawn from samples
 * of its own, and how long the page's main thread works for both.
 */
final class ChartsPage {
  private static final int CONTAINERS = 10;
  private static final int ROUNDS = 2;
  private static final int WIDTH = 1280;
  private static final int HEIGHT = 900;

  /** Presses a button of the range; ms until the browser has painted, and until it has all. */
  private static final String ZOOM =
      """
      async (title) => {
        const charts = document.getElementById('charts');
        const button = [...document.querySelectorAll('#range button')]
          .find((one) => one.textContent === title);
        const start = performance.now();
        button.click();
        await new Promise((painted) => requestAnimationFrame(() => setTimeout(painted)));
        const first = performance.now() - start;
        if (charts.hasAttribute('aria-busy'))
          await new Promise((idle) =>
            new MutationObserver(idle).observe(charts, { attributeFilter: ['aria-busy'] }));
        await new Promise((painted) => requestAnimationFrame(() => setTimeout(painted)));
        return [first, performance.now() - start];
      }
      """;

  private static final List<String> STEPS = List.of("Closer", "Closer", "Wider", "Wider");

  private final Path folder;

  ChartsPage(Path folder) {
    this.folder = folder;
  }

  void run(Report report) throws SQLException {
    Site site = Site.fresh(folder.resolve("charts-page"));
    site.plant(CONTAINERS, 1);
    Instant end = Instant.now().truncatedTo(ChronoUnit.HOURS);
    Season.fill(site, CONTAINERS, end.minus(Duration.ofDays(Season.DAYS)));
    int port = Ports.free();
    try (ServiceProcess service = site.start(port, Site.EMBEDDED, Site.SMALL, Map.of());
        Playwright playwright = Playwright.create();
        Browser browser = playwright.chromium().launch(ShelfPage.options())) {
      measure(service, browser, "/charts.html?" + chosen(), CONTAINERS + " containers", report);
      String one = "/container.html?id=" + Site.container(0).value();
      measure(service, browser, one, "one container on its page", report);
    }
    Site.remove(site.data());
  }

  private static void measure(
      ServiceProcess service, Browser browser, String path, String whose, Report report) {
    Page page = browser.newPage(new Browser.NewPageOptions().setViewportSize(WIDTH, HEIGHT));
    page.navigate(service.grower().api().base() + path + "&range=all");
    page.waitForFunction("() => document.querySelectorAll('#charts canvas').length >= 3");
    page.waitForFunction("() => !document.getElementById('charts').hasAttribute('aria-busy')");
    // The first look at a stretch works out its hourly sums; a grower waits for them once.
    STEPS.forEach(step -> page.evaluate(ZOOM, step));

    List<Double> drawn = new ArrayList<>();
    List<Double> finer = new ArrayList<>();
    browser.startTracing(page, new Browser.StartTracingOptions().setCategories(Tasks.TRACED));
    for (int i = 0; i < ROUNDS; i++) {
      for (String step : STEPS) {
        List<?> times = (List<?>) page.evaluate(ZOOM, step);
        drawn.add(((Number) times.get(0)).doubleValue());
        finer.add(((Number) times.get(1)).doubleValue());
      }
    }
    Tasks tasks = Tasks.of(browser.stopTracing());
    page.close();
    String what = "charts of six weeks of " + whose + ": ";
    report.figure(what + "a zoom, drawn", "under 100 ms", times(drawn));
    report.figure(what + "a zoom, with samples of its own", "", times(finer));
    report.figure(
        what + "main thread busy for a zoom, both drawings",
        "under 100 ms",
        Report.figure(tasks.sumMs() / drawn.size())
            + " ms, longest task "
            + Report.figure(tasks.longestMs())
            + " ms");
  }

  private static String chosen() {
    return IntStream.range(0, CONTAINERS)
        .mapToObj(i -> "container=" + Site.container(i).value())
        .collect(Collectors.joining("&"));
  }

  private static String times(List<Double> ms) {
    return "median "
        + Report.figure(Stores.median(ms))
        + " ms, longest "
        + Report.figure(Collections.max(ms))
        + " ms";
  }
}
