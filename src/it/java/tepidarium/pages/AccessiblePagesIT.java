package tepidarium.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.ReducedMotion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.it.SmallSeason;

/**
 * Every page against the rules of axe-core (contrast and WCAG 2.2, levels A and AA, among them), in
 * both colour schemes, while the service has no data and with a small season; and its width in
 * windows of several widths. A desk of {@value #DESK} px at a zoom of 200 % is {@value #ZOOMED} px
 * wide.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class AccessiblePagesIT {
  private static final int DESK = 1280;
  private static final int ZOOMED = 640;
  private static final int[] WIDTHS = {320, 390, ZOOMED, 768, 1024, DESK, 1920};

  /**
   * What is checked: contrast takes longest, and alone differs between the colour schemes.
   *
   * @param options what axe-core runs
   */
  private record Look(ColorScheme scheme, String options) {}

  private static final Look UNCOLOURED =
      new Look(ColorScheme.LIGHT, "{ rules: { 'color-contrast': { enabled: false } } }");
  private static final Look LIGHT = new Look(ColorScheme.LIGHT, "{}");
  private static final Look DARK = new Look(ColorScheme.DARK, "{ runOnly: ['color-contrast'] }");

  /** Gives a line for each broken rule and element. Further rows of a table are made like these. */
  private static final String RUN =
      """
      async () => {
        const part = { exclude: [['tbody tr:nth-child(n + 6)']] };
        const { violations } = await axe.run(part, { resultTypes: ['violations'], ...%s });
        return violations.flatMap((rule) => rule.nodes.map((node) => `${rule.help}: ${node.html}`));
      }
      """;

  private static final String AXE = axe();

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;
  private static Page page;

  @BeforeAll
  static void start() throws IOException {
    // A site with a name, and one that does not answer.
    String settings = "site: {name: North}\nsites: {South: ['http://127.0.0.1:1']}\n";
    Files.writeString(data.resolve("settings.yaml"), settings);
    service = RunningService.embedded(data);
    new Grower(service.api()).awaitBroker();
    browser = Browser.start();
    page = browser.page(DESK);
    page.emulateMedia(new Page.EmulateMediaOptions().setReducedMotion(ReducedMotion.REDUCE));
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  @Test
  @Order(1)
  void pagesWithoutData() {
    List<String> faults = faultsOfAllPages(List.of(UNCOLOURED));
    browser.complaints().removeIf(one -> one.contains("404")); // no container and no sensor
    assertEquals(List.of(), faults);
  }

  @Test
  @Order(2)
  void pagesOfASmallSeason() {
    Grower grower = new Grower(service.api());
    Publisher sensor = Publisher.to(service.mqttPort());
    new SmallSeason(grower, sensor).fill();
    sensor.send("tepidarium/in-closet", "{\"temperature\":\"warm\"}");
    sensor.send("tepidarium/on-the-sill", "{\"temperature\":21}");
    assertEquals(List.of(), faultsOfAllPages(List.of(LIGHT, DARK)));
    assertEquals(List.of(), browser.complaints());
  }

  private static List<String> faultsOfAllPages(List<Look> looks) {
    List<String> faults = new ArrayList<>();
    for (EveryPage.Visit visit : EveryPage.all()) {
      String name = visit.name();
      page.setViewportSize(DESK, 900);
      page.navigate(service.url() + visit.path());
      EveryPage.awaitLoaded(page);
      EveryPage.unfold(page);
      page.evaluate(AXE);
      for (Look look : looks) {
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(look.scheme()));
        for (Object broken : (List<?>) page.evaluate(RUN.formatted(look.options()))) {
          faults.add(name + ", " + look + ": " + broken);
        }
      }
      int running = (int) page.evaluate("document.getAnimations().length");
      if (running > 0) {
        faults.add(name + " moves, although the reader asked for no motion");
      }
      for (int width : WIDTHS) {
        page.setViewportSize(width, 900);
        if (!Objects.equals(
            true, page.evaluate("() => document.documentElement.scrollWidth <= innerWidth"))) {
          faults.add(name + " scrolls sideways at " + width + " px");
        }
      }
    }
    return faults;
  }

  /** The script that its library for Java would put into the page anew at each run. */
  private static String axe() {
    try (InputStream script = AxeBuilder.class.getResourceAsStream("/axe.min.js")) {
      return new String(Objects.requireNonNull(script).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
