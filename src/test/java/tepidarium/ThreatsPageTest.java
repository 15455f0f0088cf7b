package tepidarium;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Each threat of the page on threats names tests that exist. */
class ThreatsPageTest {
  private static final Pattern NAMED = Pattern.compile("`(\\w+)(?:\\.(\\w+))?`");

  @Test
  void everyThreatNamesTestsThatExist() throws IOException {
    Map<String, String> tests = tests();
    List<String> rows =
        Files.readAllLines(Path.of("src/docs/threats.md")).stream()
            .filter(line -> line.startsWith("| ") && !line.startsWith("| ---"))
            .skip(1)
            .toList();
    assertTrue(rows.size() >= 15, rows.size() + " threats");
    for (String row : rows) {
      String last = row.split(" \\| ", -1)[2];
      Matcher named = NAMED.matcher(last);
      assertTrue(named.find(), row + " names no test");
      do {
        String code = tests.getOrDefault(named.group(1), "");
        assertFalse(code.isEmpty(), named.group(1) + " does not exist");
        assertTrue(
            named.group(2) == null || code.contains("void " + named.group(2) + '('), named.group());
      } while (named.find());
    }
  }

  /** The code of each test class, by its name. */
  private static Map<String, String> tests() throws IOException {
    Map<String, String> tests = new HashMap<>();
    for (String folder : List.of("src/test/java", "src/it/java")) {
      try (Stream<Path> files = Files.walk(Path.of(folder))) {
        for (Path file : files.filter(path -> path.toString().endsWith(".java")).toList()) {
          String name = file.getFileName().toString().replace(".java", "");
          tests.put(name, Files.readString(file));
        }
      }
    }
    return tests;
  }
}
