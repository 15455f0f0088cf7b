package tepidarium.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Debian's Chromium without a window; collects whatever a page complains of. */
final class Browser implements AutoCloseable {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
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

  private final Playwright playwright;
  private final com.microsoft.playwright.Browser browser;
  private final List<String> complaints = new ArrayList<>();

  private Browser(Playwright playwright, com.microsoft.playwright.Browser browser) {
    this.playwright = playwright;
    this.browser = browser;
  }

  static Browser start() {
    if (!Files.isExecutable(CHROMIUM)) {
      throw new IllegalStateException("no browser: install the package chromium");
    }
    Playwright playwright = Playwright.create();
    BrowserType.LaunchOptions options =
        new BrowserType.LaunchOptions()
            .setExecutablePath(CHROMIUM)
            .setHeadless(true)
            .setArgs(ARGUMENTS);
    return new Browser(playwright, playwright.chromium().launch(options));
  }

  /** A new page of the given width. */
  Page page(int width) {
    BrowserContext context =
        browser.newContext(
            new com.microsoft.playwright.Browser.NewContextOptions().setViewportSize(width, 900));
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

  /** No page has complained, and this one is no wider than the window. */
  void assertNothingWrong(Page page) {
    assertEquals(List.of(), complaints);
    assertNoSidewaysScrolling(page);
  }

  static void assertNoSidewaysScrolling(Page page) {
    assertEquals(
        page.evaluate("() => document.documentElement.clientWidth"),
        page.evaluate("() => document.documentElement.scrollWidth"),
        "the page must not scroll sideways");
  }

  @Override
  public void close() {
    browser.close();
    playwright.close();
  }
}
