package tepidarium.pages;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Lists the pages by their files, for tests that visit all of them. Documents are left out. */
final class EveryPage {
  private static final Path FOLDER = Path.of("grafana-free-dashboards");

  /** What a page shows of the small season. */
  private static final Map<String, String> QUERIES =
      Map.of(
          "container", "?id=closet", "sensors", "?sensor=in-closet", "tally", "?container=closet");

  /**
   * A page to visit.
   *
   * @param name its folder
   */
  record Visit(String name, String path) {}

  private EveryPage() {}

  /** All pages. Sensors comes twice: the list, and the sheet of one. */
  static List<Visit> all() {
    return Stream.concat(
            names().stream().map(name -> new Visit(name, path(name))),
            Stream.of(new Visit("sensors", "/sensors.html")))
        .toList();
  }

  private static List<String> names() {
    try (Stream<Path> folders = Files.list(FOLDER)) {
      return folders
          .map(folder -> folder.getFileName().toString())
          .filter(name -> Files.exists(FOLDER.resolve(name).resolve(name + ".html")))
          .filter(name -> !name.equals("document"))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The path of a page that shows the closet of the small season, where it shows one container. */
  static String path(String name) {
    return name.equals("shelf") ? "/" : "/" + name + ".html" + QUERIES.getOrDefault(name, "");
  }

  /**
   * Waits until no call waits for its answer and nothing was loaded for a while. The live stream
   * does not count.
   */
  static void awaitLoaded(Page page) {
    page.waitForFunction(
        """
        () => callsUnderWay === 0 && performance.now()
          > 150 + Math.max(...performance.getEntriesByType('resource').map((each) => each.responseEnd))
        """);
  }

  /** Opens all details and waits for what they load. */
  static void unfold(Page page) {
    page.evaluate("document.querySelectorAll('details').forEach((each) => (each.open = true))");
    awaitLoaded(page);
  }
}
