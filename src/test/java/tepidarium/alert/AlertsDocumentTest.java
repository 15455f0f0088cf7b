package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;

/** The table in {@code alerts.md} has the defaults of {@link AlertKind}. */
class AlertsDocumentTest {
  private static final int COLUMNS = 6;

  private static Map<String, String> documented() throws IOException {
    Map<String, String> rows = new TreeMap<>();
    for (String line : Files.readAllLines(Path.of("src/docs/alerts.md"))) {
      String[] cells = line.replaceAll("^\\| | \\|$", "").split(" \\| ");
      if (line.startsWith("| `") && cells.length == COLUMNS) {
        rows.put(
            cells[0].replace("`", ""),
            number(cells[2]) + " " + number(cells[3]) + " " + number(cells[4]) + " " + cells[5]);
      }
    }
    return rows;
  }

  /** The number before the unit. */
  private static double number(String cell) {
    return Double.parseDouble(cell.split(" ")[0]);
  }

  @Test
  void theTableHasTheDefaults() throws IOException {
    Map<String, String> kinds = new TreeMap<>();
    for (AlertKind kind : AlertKind.values()) {
      AlertRule standard = kind.standard(Band.DEFAULT, Duration.ofMinutes(30));
      Rule rule = standard.rule();
      kinds.put(
          kind.key(),
          rule.deadband()
              + " "
              + rule.onDelay().toSeconds() / 60.0
              + " "
              + rule.offDelay().toSeconds() / 60.0
              + " "
              + standard.priority().name().toLowerCase(Locale.ROOT));
    }
    assertEquals(kinds, documented());
  }
}
