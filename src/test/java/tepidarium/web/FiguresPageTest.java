package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The page that explains the figures: each row is whole, and each test that it names exists. */
class FiguresPageTest {
  private static final Path TEXT = Path.of("src/docs/figures.md");
  private static final int COLUMNS = 6;
  private static final Pattern NAMED = Pattern.compile("`([\\w.-]+)`");

  private static List<String[]> rows() throws IOException {
    List<String[]> rows = new ArrayList<>();
    for (String line : Files.readAllLines(TEXT)) {
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
  void everyFigureTellsAllThatIsAsked() throws IOException {
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
        FiguresPage.html("## Heat bench, 24 h"));
  }
}
