package tepidarium.series.spool;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.series.StoreException;

class SpoolFileTest {
  private static final long LIMIT_BYTES = 1 << 20;
  private static final SensorId SENSOR = new SensorId("bag");

  private final Path path;

  @SuppressWarnings("NullAway.Init")
  private SpoolFile file;

  SpoolFileTest(@TempDir Path folder) {
    path = folder.resolve("spool.db");
  }

  @BeforeEach
  void open() {
    file = SpoolFile.open(path, LIMIT_BYTES);
  }

  @AfterEach
  void close() {
    file.close();
  }

  private static List<Reading> readings(int from, int to) {
    return IntStream.range(from, to)
        .mapToObj(
            i ->
                Readings.ofAir(
                    SENSOR, Instant.ofEpochSecond(i), 20.25, i % 2 == 0 ? 96.5 : null, null, null))
        .toList();
  }

  /** Appends until the file is full; returns the number of queued readings. */
  private int fill() {
    int kept = 0;
    try {
      while (true) {
        file.append(readings(kept, kept + 1_000));
        kept += 1_000;
      }
    } catch (StoreException e) {
      assertTrue(
          String.valueOf(e.getMessage()).contains("the spool or its disk is full"), e::toString);
      return kept;
    }
  }

  private List<Reading> drained() {
    List<Reading> all = new ArrayList<>();
    while (file.size() > 0) {
      SpoolFile.Batch batch = file.oldest(700);
      all.addAll(batch.readings());
      file.remove(batch);
    }
    return all;
  }

  @Test
  void readingsComeBackUnchangedAndInOrder() {
    file.append(readings(0, 1_000));
    file.append(readings(500, 1_500));

    List<Reading> expected = new ArrayList<>(readings(0, 1_000));
    expected.addAll(readings(500, 1_500));
    assertEquals(expected, drained());
    assertEquals(new SpoolFile.Batch(0, List.of()), file.oldest(1));
  }

  @Test
  void howAReadingCameIsKept() {
    List<Reading> arrived =
        List.of(
            new Reading(
                SENSOR,
                Instant.EPOCH,
                Map.of(Quantity.TEMPERATURE, 20.0),
                new Arrival(7, true, false)),
            new Reading(
                SENSOR,
                Instant.EPOCH,
                Map.of(Quantity.TEMPERATURE, 20.0),
                new Arrival(0, false, true)),
            Readings.ofAir(SENSOR, Instant.EPOCH, 20.0, null, null, null));
    file.append(arrived);

    assertEquals(arrived, drained());
  }

  @Test
  void entriesThatWereNotRemovedSurviveReopening() {
    file.append(readings(0, 10));
    file.remove(file.oldest(3));
    file.close();
    open();

    assertEquals(7, file.size());
    assertEquals(readings(3, 10), drained());
  }

  @Test
  void aFullSpoolKeepsWhatItHasAndTakesMoreOnceThereIsRoom() throws IOException {
    int kept = fill();

    assertTrue(kept > 5_000, "only " + kept);
    assertTrue(Files.size(path) <= LIMIT_BYTES);
    assertEquals(1, file.share());
    assertThrows(StoreException.class, () -> file.append(readings(0, 1_000)));
    assertEquals(kept, file.size());
    file.remove(file.oldest(3_000));
    assertTrue(file.share() < 1);
    file.append(readings(kept, kept + 1_000));
    assertEquals(readings(3_000, kept + 1_000), drained());
  }

  @Test
  void theFilledShareGrowsWithTheStoredReadings() {
    double empty = file.share();
    file.append(readings(0, 5_000));

    assertTrue(empty < 0.1 && file.share() > empty + 0.1, empty + " to " + file.share());
  }

  @Test
  void aLargeSpoolGivesItsSpaceBackOnceItIsEmpty() throws IOException {
    Path large = path.resolveSibling("large.db");
    long compactAbove = 1 << 20;
    try (SpoolFile spool = SpoolFile.open(large, 64 << 20, compactAbove)) {
      spool.append(readings(0, 75_000));
      while (spool.size() > 0) {
        spool.remove(spool.oldest(25_000));
      }
      assertTrue(Files.size(large) > compactAbove, "too small to be compacted");
      spool.shrink();

      assertTrue(Files.size(large) < 1 << 18, () -> "still large");
      spool.append(readings(0, 10));
      assertEquals(readings(0, 10), spool.oldest(20).readings());
    }
  }
}
