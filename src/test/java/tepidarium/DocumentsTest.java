package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The Markdown files: their links lead somewhere, and the README leads to each page in one step.
 */
class DocumentsTest {
  private static final Pattern LINK = Pattern.compile("]\\(([^)\\s]+)\\)");
  private static final Pattern DECLARED =
      Pattern.compile("\\b(?:class|record|interface|enum) (\\w+)");
  private static final Pattern NAMED =
      Pattern.compile("`([A-Z]\\w*[a-z]\\w*|(?:[a-z-]+/)?[a-z-]+\\.js)`");
  private static final Pattern TABLE_HEAD = Pattern.compile("(?m)^\\|( ?:?-+:? ?\\|)+$");

  private static List<Path> documents() throws IOException {
    List<Path> found = new ArrayList<>(List.of(Path.of("README.md"), Path.of("DEVELOPERS.md")));
    for (String folder : List.of("src/docs", "firmware-notes")) {
      try (Stream<Path> files = Files.walk(Path.of(folder))) {
        files.filter(file -> file.toString().endsWith(".md")).forEach(found::add);
      }
    }
    return found;
  }

  private static List<String> links(Path document) throws IOException {
    return LINK.matcher(Files.readString(document))
        .results()
        .map(result -> result.group(1))
        .filter(link -> !link.startsWith("http"))
        .toList();
  }

  private static Set<String> headings(Path document) throws IOException {
    return Files.readAllLines(document).stream()
        .filter(line -> line.startsWith("#"))
        .map(line -> line.replaceFirst("^#+ +", "").toLowerCase(Locale.ROOT))
        .map(line -> line.replaceAll("[^a-z0-9 -]", "").replace(' ', '-'))
        .collect(Collectors.toSet());
  }

  @Test
  void everyLinkLeadsToAFileAndAHeading() throws IOException {
    for (Path document : documents()) {
      for (String link : links(document)) {
        String[] parts = link.split("#", 2);
        Path target = parts[0].isEmpty() ? document : document.resolveSibling(parts[0]).normalize();
        String words = document + " links to " + link;
        assertTrue(Files.exists(target), words);
        if (parts.length == 2) {
          assertTrue(headings(target).contains(parts[1]), words);
        }
      }
    }
  }

  @Test
  void theReadmeLinksToEachDocument() throws IOException {
    List<String> linked = links(Path.of("README.md"));
    try (Stream<Path> pages = Files.list(Path.of("src/docs"))) {
      pages
          .map(Path::toString)
          .filter(page -> page.endsWith(".md") && !page.endsWith("/walk.md"))
          .forEach(page -> assertTrue(linked.contains(page), "README.md does not link " + page));
    }
    assertEquals("src/docs/walk.md", links(Path.of("DEVELOPERS.md")).get(0));
  }

  /** A paragraph between the head of a table and its rows turns the rows into text. */
  @Test
  void everyTableHasAHeader() throws IOException {
    for (Path document : documents()) {
      for (String block : Files.readString(document).split("\n\\s*\n")) {
        if (block.startsWith("|")) {
          assertTrue(
              TABLE_HEAD.matcher(block).results().map(MatchResult::group).count() == 1,
              document + " has rows without a head: " + block.lines().findFirst().orElse(""));
        }
      }
    }
  }

  /** A newcomer searches for the names in these two pages. */
  @Test
  void everyNamedTypeAndPageExists() throws IOException {
    Set<String> existing = new TreeSet<>();
    for (String folder : List.of("src/main/java", "src/test/java", "src/it/java")) {
      try (Stream<Path> files = Files.walk(Path.of(folder))) {
        for (Path file : files.filter(path -> path.toString().endsWith(".java")).toList()) {
          DECLARED
              .matcher(Files.readString(file))
              .results()
              .forEach(result -> existing.add(result.group(1)));
        }
      }
    }
    Path folder = Path.of("grafana-free-dashboards");
    try (Stream<Path> pages = Files.find(folder, 2, (file, kind) -> kind.isRegularFile())) {
      pages.forEach(page -> existing.add(folder.relativize(page).toString()));
    }
    for (Path document : List.of(Path.of("DEVELOPERS.md"), Path.of("src/docs/walk.md"))) {
      NAMED
          .matcher(Files.readString(document))
          .results()
          .forEach(
              name ->
                  assertTrue(
                      existing.contains(name.group(1)), document + " names " + name.group(1)));
    }
  }
}
