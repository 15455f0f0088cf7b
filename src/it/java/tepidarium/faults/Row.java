package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * One line of the table of faults.
 *
 * @param lost readings that were acknowledged to their sensor and are not in the store
 * @param doubled readings that are in the store twice, or that nobody sent
 * @param seconds the longest time until the service called itself up again, or another one owned
 *     its work
 * @param goalSeconds how long that may take at most
 */
record Row(String fault, Tally tally, long lost, long doubled, double seconds, double goalSeconds) {
  private static final Path FOLDER = Path.of("target", "faults");
  private static final double HEALTHY_SECONDS = 10;

  /** A row of one service, which should be up again within 10 s. */
  Row(String fault, Tally tally, long lost, long doubled, double seconds) {
    this(fault, tally, lost, doubled, seconds, HEALTHY_SECONDS);
  }

  /** Writes it down and fails where anything was lost, doubled or not accounted for. */
  void check() {
    write(lost == 0 ? "" : "lost");
    assertEquals(0, lost, () -> "acknowledged and not stored: " + this);
    checkCounts();
  }

  /** The same where a broker of others lost what it had not saved when it was killed. */
  void checkButFor(String brokersLoss) {
    write(lost == 0 ? "" : brokersLoss);
    checkCounts();
  }

  private void checkCounts() {
    assertEquals(0, doubled, () -> "doubled or made up: " + this);
    assertTrue(tally.addsUp(), () -> "not accounted for: " + this);
  }

  private boolean met() {
    return doubled == 0 && tally.addsUp() && seconds <= goalSeconds;
  }

  private void write(String remark) {
    boolean good = met() && remark.isEmpty();
    String line =
        String.format(
            Locale.ROOT,
            "| %s | %,d | %,d | %,d | %,d | %,d | %,d | %.1f | %s |%n",
            fault,
            tally.received(),
            tally.stored(),
            tally.repeated(),
            tally.rejected(),
            lost,
            doubled,
            seconds,
            (good ? "met" : "not met") + (remark.isEmpty() ? "" : ": " + remark));
    try {
      Files.createDirectories(FOLDER);
      // Without what was measured, so that a later run writes the same file.
      String name = fault.toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", "-");
      Files.writeString(FOLDER.resolve(name + ".row"), line);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
