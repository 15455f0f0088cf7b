package tepidarium.web.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tepidarium.web.server.RouteServer;

/**
 * The documents as pages: links lead to other pages, the product's pages link to documents that
 * exist, and each row of {@code figures.md} is whole and names tests that exist.
 */
class DocumentPagesTest {
  private static final Pattern LINKED = Pattern.compile("/docs/([a-z-]+)\\.html");
  private static final Pattern ID = Pattern.compile("\\bid(?:=\"|: ')([a-z-]+)[\"']");
  private static final Path TEXT = Path.of("src/docs/figures.md");
  private static final int COLUMNS = 6;
  private static final Pattern NAMED = Pattern.compile("`([\\w.-]+)`");

  /** The figures; the last section counts how often intervals hold. */
  private static List<String[]> rows() throws IOException {
    List<String[]> rows = new ArrayList<>();
    for (String line : Files.readAllLines(TEXT)) {
      if (line.equals("## How often the intervals hold")) {
        break;
      }
      boolean row = line.startsWith("| ") && !line.startsWith("| ---");
      if (row && !line.startsWith("| Figure | Unit |")) {
        rows.add(line.substring(2, line.lastIndexOf(" |")).split(" \\| ", -1));
      }
    }
    return rows;
  }

  private static Set<String> tests() throws IOException {
    try (Stream<Path> test = Files.walk(Path.of("src/test/java"));
        Stream<Path> it = Files.walk(Path.of("src/it/java"));
        Stream<Path> pages = Files.walk(Path.of("grafana-free-dashboards/test"))) {
      return Stream.of(test, it, pages)
          .flatMap(paths -> paths)
          .map(path -> path.getFileName().toString())
          .filter(name -> name.endsWith(".java") || name.endsWith(".test.js"))
          .map(name -> name.replace(".java", ""))
          .collect(Collectors.toSet());
    }
  }

  @Test
  void everyFigureStatesAllRequiredValues() throws IOException {
    assertFalse(rows().isEmpty());
    for (String[] row : rows()) {
      assertEquals(COLUMNS, row.length, String.join(" | ", row));
      for (String cell : row) {
        assertFalse(cell.isBlank(), String.join(" | ", row));
      }
    }
  }

  @Test
  void everyTestThatIsNamedExists() throws IOException {
    Set<String> classes = tests();
    for (String[] row : rows()) {
      List<String> named = new ArrayList<>();
      Matcher matcher = NAMED.matcher(row[COLUMNS - 1]);
      while (matcher.find()) {
        named.add(matcher.group(1));
      }
      assertFalse(named.isEmpty(), row[0] + " names no test");
      named.forEach(name -> assertTrue(classes.contains(name), row[0] + " names " + name));
    }
  }

  @Test
  void headingsCanBeLinkedTo() {
    assertEquals(
        "<h2 id=\"heat-bench-24-h\">Heat bench, 24 h</h2>\n",
        DocumentPages.html("## Heat bench, 24 h"));
  }

  @Test
  void linksBetweenDocumentsLeadToPages() {
    String html =
        DocumentPages.html(
            "[a](sensors.md) [b](settings.md#all-settings) [c](../../DEVELOPERS.md) [d](#here)"
                + " [e](absent.md) [f](https://example.org/x.md)");
    assertEquals(
        "<p><a href=\"/docs/sensors.html\">a</a> <a href=\"/docs/settings.html#all-settings\">b</a>"
            + " <a>c</a> <a href=\"#here\">d</a> <a>e</a>"
            + " <a href=\"https://example.org/x.md\">f</a></p>\n",
        html);
  }

  /** The script of a page finds its own elements by id, so no heading may have the same. */
  @Test
  void noHeadingHasTheIdOfAnElementOfThePage() throws IOException {
    List<String> own = new ArrayList<>();
    for (String file : List.of("document/document.html", "shared/frame.html", "shared/page.js")) {
      String text = Files.readString(Path.of("grafana-free-dashboards", file));
      ID.matcher(text).results().forEach(id -> own.add(id.group(1)));
    }
    assertTrue(own.containsAll(List.of("main", "foot", "live")), own.toString());
    try (Stream<Path> documents = Files.list(TEXT.getParent())) {
      for (Path document : documents.filter(file -> file.toString().endsWith(".md")).toList()) {
        Set<String> ids = new TreeSet<>(own);
        ID.matcher(DocumentPages.html(Files.readString(document)))
            .results()
            .forEach(id -> assertTrue(ids.add(id.group(1)), document + " has " + id.group(1)));
      }
    }
  }

  @Test
  void theProductsPagesLinkToDocumentsThatExist() throws IOException {
    Set<String> linked = new TreeSet<>();
    try (Stream<Path> pages =
        Files.find(Path.of("grafana-free-dashboards"), 2, (file, kind) -> kind.isRegularFile())) {
      for (Path page : pages.filter(file -> file.toString().matches(".*\\.(js|html)")).toList()) {
        LINKED.matcher(Files.readString(page)).results().forEach(link -> linked.add(link.group(1)));
      }
    }
    assertTrue(linked.containsAll(List.of("sensors", "settings", "operation", "alerts")));
    for (String name : linked) {
      assertTrue(Files.exists(Path.of("src/docs/" + name + ".md")), name);
    }
  }

  @Test
  void documentsAreServed() throws IOException, InterruptedException {
    Javalin server =
        RouteServer.start(
            config -> new DocumentPages(PageSetup.of(ZoneOffset.UTC)).add(config.routes));
    try {
      String settings = get(server, "/docs/settings.html", 200);
      assertTrue(settings.contains("<title>Settings · Tepidarium</title>"), settings);
      assertTrue(settings.contains("data-document=\"settings\""), settings);
      assertTrue(settings.contains("<code>httpPort</code>"), settings);
      assertEquals(get(server, "/figures.html", 200), get(server, "/docs/figures.html", 200));
      for (String wrong : List.of("absent.html", "settings.md", "..%2Fpages%2Findex.html")) {
        get(server, "/docs/" + wrong, 404);
      }
    } finally {
      server.stop();
    }
  }

  private static String get(Javalin server, String path, int status)
      throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
    HttpResponse<String> answer =
        HttpClient.newHttpClient()
            .send(HttpRequest.newBuilder(uri).build(), BodyHandlers.ofString());
    assertEquals(status, answer.statusCode(), path + ": " + answer.body());
    return answer.body();
  }
}
