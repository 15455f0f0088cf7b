package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.web.pages.SettingDocs;

/** The page of settings names exactly the settings that exist; its examples are valid. */
class SettingsPageTest {
  private static final Path SETTINGS = Path.of("src/docs/settings.md");
  private static final Pattern NAME = Pattern.compile("`([\\w.]+)`");

  @TempDir private Path folder;

  @Test
  void everySettingIsListed() throws IOException {
    List<String> listed =
        Stream.concat(
                Files.readAllLines(SETTINGS).stream(),
                Files.readAllLines(Path.of("src/docs/notices.md")).stream())
            .filter(line -> line.startsWith("| `"))
            .map(line -> line.split(" \\| ", 2)[0])
            .flatMap(cell -> NAME.matcher(cell).results())
            .map((MatchResult name) -> name.group(1))
            .sorted()
            .toList();
    assertEquals(SettingList.ALL.stream().map(SettingList.Entry::name).sorted().toList(), listed);
  }

  /** The page shows these texts beside each setting. */
  @Test
  void everySettingHasItsMeaning() {
    Map<String, SettingDocs.Doc> docs = SettingDocs.all();
    for (SettingList.Entry entry : SettingList.ALL) {
      SettingDocs.Doc doc = docs.get(entry.name());
      assertTrue(doc != null && doc.meaning().length() > 2, entry.name());
      assertFalse(doc.standard().isBlank(), entry.name());
    }
    assertEquals("8080", docs.get("httpPort").standard());
    assertEquals(
        "port of the pages and the API; 0 takes a free one", docs.get("httpPort").meaning());
  }

  @Test
  void everySettingHasItsMeaningInGermanToo() throws IOException {
    String german = Files.readString(Path.of("grafana-free-dashboards/settings/texts.meanings.js"));
    for (SettingList.Entry entry : SettingList.ALL) {
      String key = entry.name().contains(".") ? "'" + entry.name() + "'" : entry.name();
      assertTrue(german.contains("\n  " + key + ":"), entry.name());
    }
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
