package tepidarium.it;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A service that is started on a data folder of which a part is damaged. */
class DamagedFolderIT {
  @TempDir private Path folder;

  @Test
  void damagedRollupsAreRecalculatedAndADamagedJournalIsRefused() throws IOException {
    Path data = folder.resolve("data");
    RunningService.embedded(data).close();

    halve(data.resolve("ledger.db"));
    try (RunningService service = RunningService.embedded(data)) {
      JsonNode health = service.api().get("/api/health");
      assertEquals("up", health.get("status").textValue(), health.toString());
      String words = health.get("parts").get("dataFolder").get("detail").textValue();
      assertTrue(words.contains("ledger.db is damaged: "), words);
      assertTrue(words.endsWith("Its sums are recalculated from the readings."), words);
    }

    Path journal = journal(data);
    byte[] before = Files.readAllBytes(journal);
    Arrays.fill(before, (byte) 7);
    Files.write(journal, before);
    String words = refused(data);
    assertTrue(words.contains("is damaged: " + journal.getFileName()), words);
    assertTrue(words.contains("--set-aside broker"), words);

    try (ServiceProcess service =
        ServiceProcess.start(
            data, Ports.free(), "embedded", Map.of(), "--set-aside=broker,records.db")) {
      JsonNode parts = service.grower().api().get("/api/health").get("parts");
      assertTrue(parts.get("dataFolder").get("detail").textValue().contains("--set-aside"));
    }
  }

  private static String refused(Path data) {
    String words =
        assertThrows(
                AssertionError.class,
                () -> ServiceProcess.start(data, Ports.free(), "embedded").close())
            .getMessage();
    assertTrue(words.startsWith("the service ended: "), words);
    assertFalse(words.contains("\tat ") || words.contains("null"), words);
    return words;
  }

  private static Path journal(Path data) throws IOException {
    try (var files = Files.list(data.resolve("broker/journal"))) {
      return files.filter(file -> file.toString().endsWith(".amq")).findFirst().orElseThrow();
    }
  }

  private static void halve(Path file) throws IOException {
    byte[] whole = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(whole, whole.length / 2));
  }
}
