package tepidarium.bench;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.LocatorAssertions;
import java.nio.file.Path;
import java.util.List;

/** Takes a picture of a whole page once it is live. {@code src/build/picture} calls it. */
final class Picture {
  private static final int WIDTH = 1280;
  private static final double LIVE_LIMIT_MS = 60_000;

  /**
   * The lines of the last day are asked for one after the other: nothing came for three seconds.
   */
  private static final String LOADED =
      "() => performance.now() > 3000 + Math.max("
          + "...performance.getEntriesByType('resource').map((each) => each.responseEnd))";

  private Picture() {}

  /**
   * Stores a picture.
   *
   * @param args address of the page; PNG file to write
   */
  public static void main(String[] args) {
    try (Playwright playwright = Playwright.create()) {
      Browser browser =
          playwright
              .chromium()
              .launch(
                  new BrowserType.LaunchOptions()
                      .setExecutablePath(Path.of("/usr/bin/chromium-headless-shell"))
                      .setArgs(List.of("--no-sandbox")));
      Page page =
          browser.newPage(
              new Browser.NewPageOptions().setViewportSize(WIDTH, 900).setLocale("en-GB"));
      page.navigate(args[0]);
      assertThat(page.locator("#live"))
          .hasAttribute(
              "data-state",
              "live",
              new LocatorAssertions.HasAttributeOptions().setTimeout(LIVE_LIMIT_MS));
      assertThat(page.locator("#containers article").first()).isVisible();
      page.waitForFunction(LOADED);
      page.screenshot(new Page.ScreenshotOptions().setPath(Path.of(args[1])).setFullPage(true));
      browser.close();
    }
  }
}
