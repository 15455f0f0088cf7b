package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page of settings names exactly the settings that exist; its examples are valid. */
class SettingsPageTest {
  private static final Path SETTINGS = Path.of("src/docs/settings.md");
  private static final Pattern NAME = Pattern.compile("`(\\w+)`");

  @TempDir private Path folder;

  @Test
  void everySettingIsListed() throws IOException {
    Set<String> listed =
        Files.readAllLines(SETTINGS).stream()
            .filter(line -> line.startsWith("| `"))
            .map(line -> line.split(" \\| ", 2)[0])
            .flatMap(cell -> NAME.matcher(cell).results())
            .map((MatchResult name) -> name.group(1))
            .collect(Collectors.toSet());
    Set<String> settings =
        Arrays.stream(ConfigFile.class.getRecordComponents())
            .map(RecordComponent::getName)
            .collect(Collectors.toSet());
    assertEquals(settings, listed);
  }

  @Test
  void theExamplesAreRead() throws IOException {
    Config config = read(SETTINGS);
    assertEquals(4, config.accounts().size());
    assertEquals(Set.of("gateway", "lamp", "jar-1"), config.mqttLimits().grants().keySet());
    assertEquals(2, read(Path.of("src/docs/sensors.md")).mappings().size());
  }

  private Config read(Path page) throws IOException {
    String example = Files.readString(page).split("```yaml\n", 2)[1].split("```", 2)[0];
    assertTrue(example.contains("mappings:"), example);
    Path file = Files.writeString(folder.resolve("tepidarium.yaml"), example);
    return ConfigReader.read(file, Map.of(), Map.of());
  }
}
