package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Attacks a service as it runs by default, one attack after the other. After each of them a good
 * sensor's next 20 readings must be stored within 10 s, the counts must add up, and health must
 * have told the truth all the time. A service that did not withstand an attack is replaced by a new
 * one, so that the next attack is judged by itself.
 */
class AttacksIT {
  private static final Path ROWS = Path.of("target", "faults", "attacks.table");

  @TempDir private Path folder;

  private static List<Attack> attacks() {
    String only = System.getProperty("attack", "");
    return Stream.of(
            TopicAttacks.all(),
            PacketAttacks.all(),
            PayloadAttacks.all(),
            SessionAttacks.all(),
            HttpAttacks.all(),
            List.of(TopicAttacks.manyNames()),
            StartAttacks.all())
        .flatMap(List::stream)
        .filter(attack -> attack.inShortForm() || Form.of(0, 1) == 1)
        .filter(attack -> attack.name().contains(only))
        .toList();
  }

  @Test
  void everyAttackIsWithstood() throws IOException {
    List<String> failed = new ArrayList<>();
    Files.createDirectories(ROWS.getParent());
    Files.writeString(ROWS, "");
    Target target = Target.start(folder.resolve("data"), Map.of());
    try {
      for (Attack attack : attacks()) {
        Aftermath aftermath = Aftermath.of(attack, target);
        Files.writeString(ROWS, aftermath.row(), StandardOpenOption.APPEND);
        if (!aftermath.met()) {
          failed.add(aftermath.row());
          target.close();
          target = Target.start(folder.resolve("data-" + failed.size()), Map.of());
        }
      }
    } finally {
      target.close();
    }
    assertEquals(List.of(), failed);
  }
}
