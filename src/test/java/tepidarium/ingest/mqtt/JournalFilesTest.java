package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The embedded broker on files of its own that were damaged while it was stopped. */
class JournalFilesTest {
  @TempDir private Path folder;

  @BeforeEach
  void filesOfARealBroker() {
    start();
  }

  private void start() {
    BrokerAccounts accounts =
        new BrokerAccounts(
            new BrokerAccounts.ServiceLogin("id", "u", "p"),
            BrokerClients.ANYBODY,
            new BrokerAccounts.Topics("t", List::of, topic -> null, (topic, payload) -> {}),
            (topic, reason) -> {});
    EmbeddedBroker.start(
            new SensorPorts("127.0.0.1", 0, null), folder, accounts, EmbeddedBrokerTest.LIMITS)
        .close();
  }

  @Test
  void startsOnItsOwnFiles() {
    start();
  }

  @Test
  void refusesFilesThatAreCutShort() throws IOException {
    Path file = file("journal", ".amq");
    for (int length : new int[] {0, 500_000}) {
      cut(file, length);
      assertRefused(file.getFileName() + " is truncated to " + length + " bytes");
    }
  }

  @Test
  void refusesFilesThatBeginWithSomethingElse() throws IOException {
    for (Path file : List.of(file("journal", ".amq"), file("bindings", ".bindings"))) {
      byte[] before = Files.readAllBytes(file);
      byte[] garbage = new byte[before.length];
      new Random(1).nextBytes(garbage);
      Files.write(file, garbage);
      assertRefused(file.getFileName() + " is not a journal file");
      Files.write(file, before);
    }
  }

  @Test
  void refusesToStartWithoutTheSessions() throws IOException {
    try (var files = Files.list(folder.resolve("bindings"))) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    assertRefused("the files in bindings are missing");
  }

  private void assertRefused(String reason) {
    String words = assertThrows(DamagedJournal.class, this::start).getMessage();
    assertTrue(words.contains(folder + " is damaged: " + reason), words);
  }

  private Path file(String inside, String ending) throws IOException {
    try (var files = Files.list(folder.resolve(inside))) {
      return files.filter(file -> file.toString().endsWith(ending)).findFirst().orElseThrow();
    }
  }

  private static void cut(Path file, int length) throws IOException {
    try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "rw")) {
      open.setLength(length);
    }
  }
}
