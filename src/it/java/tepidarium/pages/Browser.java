package tepidarium.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Opens pages in Debian's Chromium without a window and collects the errors that they report. All
 * tests of a process share one Chromium; each page has a context of its own, so that nothing that a
 * page stores reaches another test. Must be used by one thread.
 *
 * <p>Tests unfold details with the Enter key: a click is lost if the page inserts something above
 * between the press and the release of the button.
 */
final class Browser implements AutoCloseable {
  /** Chromium without what a window needs: it takes half the processor time. */
  private static final Path WINDOWLESS = Path.of("/usr/bin/chromium-headless-shell");

  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");

  /** How long an assertion may wait for a page on a slow and busy machine. */
  private static final double ASSERTION_LIMIT_MS = 30_000;

  private static final List<String> ARGUMENTS =
      List.of(
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--disable-dev-shm-usage");

  /** Words that JavaScript shows in place of a missing value; code in documents may have them. */
  private static final String MISSING_VALUES =
      "() => [...document.body.innerText.matchAll(/.*\\b(null|undefined|NaN)\\b.*/g)]"
          + ".map((line) => line[0]).filter((line) => ![...document.querySelectorAll('code')]"
          + ".some((code) => line.includes(code.innerText)))";

  /** Counts the calls of the page that have no answer yet. */
  private static final String COUNT_CALLS =
      """
      globalThis.callsUnderWay = 0;
      const call = globalThis.fetch;
      globalThis.fetch = (...request) => {
        globalThis.callsUnderWay += 1;
        return call(...request).finally(() => (globalThis.callsUnderWay -= 1));
      };
      """;

  private static @Nullable Playwright playwright;
  private static final Map<Path, com.microsoft.playwright.Browser> RUNNING = new HashMap<>();

  private final com.microsoft.playwright.Browser browser;
  private final List<BrowserContext> contexts = new ArrayList<>();
  private final List<String> complaints = new ArrayList<>();

  private Browser(com.microsoft.playwright.Browser browser) {
    this.browser = browser;
  }

  static Browser start() {
    return start(WINDOWLESS);
  }

  /** Starts a Chromium that can also show notifications. */
  static Browser withNotifications() {
    return start(CHROMIUM);
  }

  private static Browser start(Path program) {
    com.microsoft.playwright.Browser running = RUNNING.get(program);
    if (running == null || !running.isConnected()) {
      running = launch(program);
      RUNNING.put(program, running);
    }
    return new Browser(running);
  }

  /** Playwright ends Chromium when the test process ends. */
  private static com.microsoft.playwright.Browser launch(Path program) {
    if (!Files.isExecutable(program)) {
      throw new IllegalStateException("no browser: install the package " + program.getFileName());
    }
    PlaywrightAssertions.setDefaultAssertionTimeout(ASSERTION_LIMIT_MS);
    BrowserType.LaunchOptions options =
        new BrowserType.LaunchOptions()
            .setExecutablePath(program)
            .setHeadless(true)
            .setArgs(ARGUMENTS);
    return playwright().chromium().launch(options);
  }

  private static Playwright playwright() {
    Playwright running = playwright;
    if (running == null) {
      running = Playwright.create();
      playwright = running;
    }
    return running;
  }

  /** A new page of the given width, in English. */
  Page page(int width) {
    return page(width, "en-GB");
  }

  /** A new page of a browser that prefers the language of this locale. */
  Page page(int width, String locale) {
    return page(options(width, locale));
  }

  /** A new page that works without a network too. */
  Page offlinePage(int width, String locale) {
    return page(options(width, locale).setServiceWorkers(ServiceWorkerPolicy.ALLOW));
  }

  /** A new page of a browser in another time zone, in English. */
  Page pageIn(String zone) {
    return page(options(1280, "en-GB").setTimezoneId(zone));
  }

  /** A service worker would hide requests from tests that answer or hold them back. */
  private static com.microsoft.playwright.Browser.NewContextOptions options(
      int width, String locale) {
    return new com.microsoft.playwright.Browser.NewContextOptions()
        .setViewportSize(width, 900)
        .setServiceWorkers(ServiceWorkerPolicy.BLOCK)
        .setLocale(locale);
  }

  private Page page(com.microsoft.playwright.Browser.NewContextOptions options) {
    BrowserContext context = browser.newContext(options);
    contexts.add(context);
    return pageBeside(context);
  }

  /**
   * Another page of the browser that shows this one: with its permissions and what it remembers.
   */
  Page pageBeside(Page page) {
    return pageBeside(page.context());
  }

  private Page pageBeside(BrowserContext context) {
    Page page = context.newPage();
    page.addInitScript("{" + COUNT_CALLS + "}");
    page.onPageError(complaints::add);
    page.onConsoleMessage(
        message -> {
          if (message.type().equals("error")) {
            complaints.add(message.text());
          }
        });
    return page;
  }

  List<String> complaints() {
    return complaints;
  }

  /** No page has complained; this one is no wider than the window and shows values, not nothing. */
  void assertNothingWrong(Page page) {
    assertEquals(List.of(), complaints);
    assertNoSidewaysScrolling(page);
    assertEquals(List.of(), page.evaluate(MISSING_VALUES), "the page shows a missing value");
  }

  static void assertNoSidewaysScrolling(Page page) {
    assertEquals(
        page.evaluate("() => document.documentElement.clientWidth"),
        page.evaluate("() => document.documentElement.scrollWidth"),
        "the page must not scroll sideways");
  }

  @Override
  public void close() {
    contexts.forEach(BrowserContext::close);
  }
}
