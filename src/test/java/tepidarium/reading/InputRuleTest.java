package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Each rule is broken somewhere, and stands in the description of the API. */
class InputRuleTest {
  private static final Path SOURCES = Path.of("src/main/java/tepidarium");

  @Test
  void eachRuleIsUsed() throws IOException {
    String code;
    try (Stream<Path> files = Files.walk(SOURCES)) {
      code =
          files
              .filter(file -> file.toString().endsWith(".java"))
              .map(InputRuleTest::read)
              .collect(Collectors.joining());
    }
    assertEquals(
        List.of(),
        Arrays.stream(InputRule.values())
            .filter(rule -> !code.contains("InputRule." + rule.name() + ".with("))
            .toList());
  }

  @Test
  void theDescriptionOfTheApiHasEachRuleAndFigure() throws IOException {
    JsonNode problem;
    try (InputStream yaml = InputRuleTest.class.getResourceAsStream("/openapi.yaml")) {
      problem = new YAMLMapper().readTree(yaml).at("/components/schemas/Problem/properties");
    }
    List<String> codes = new ArrayList<>();
    problem.at("/rule/enum").forEach(code -> codes.add(code.asText()));
    assertEquals(Arrays.stream(InputRule.values()).map(InputRule::key).toList(), codes);
    Set<String> figures = new TreeSet<>();
    Arrays.stream(InputRule.values()).forEach(rule -> figures.addAll(rule.figures()));
    Set<String> described = new TreeSet<>();
    problem.at("/figures/properties").fieldNames().forEachRemaining(described::add);
    assertEquals(figures, described);
  }

  @Test
  void anUnknownFigureIsLeftOutAndNoneIsForgotten() {
    assertEquals(Map.of("sensor", "a", "since", 1), InputRule.PLACED.with("a", null, 1).figures());
    assertThrows(IllegalArgumentException.class, () -> InputRule.PLACED.with("a", null));
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
