package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Queue;
import java.util.Random;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.faults.CutNetwork.Cut;
import tepidarium.faults.DeskReadings.Reading;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;

/**
 * The firmware (firmware-notes) against the service: it sleeps, restarts from its memory, is
 * killed, loses its network, and sends its backlog. Each reading is stored once, at the right time.
 *
 * <p>In the short form its clock jumps in place of sleeping. The long form takes an hour of real
 * time.
 */
class DeskSensorIT {
  private static final boolean REAL_TIME = Form.of(0, 1) == 1;
  private static final int OUTAGES = Form.of(5, 20);
  private static final int RUN_SECONDS = Form.of(1_200, 300);
  private static final int EVERY_SECONDS = Form.of(60, 6);

  /** UTC at the sensor's uptime 0 in the short form: 2026-03-01T06:00:00Z. */
  private static final long START_SECONDS = 1_772_344_800;

  /** By how much the sensor's clock is slow in the short form. */
  private static final int SLOW_PERCENT = 5;

  /** The clocks of test and sensor are rounded to seconds, each in its own way. */
  private static final long TOLERANCE_SECONDS = Form.of(5, 2);

  @TempDir private Path folder;

  @Test
  void eachReadingIsStoredOnceOverCutsAndRestarts() throws IOException {
    Queue<Cut> cuts = cuts();
    Path data = folder.resolve("data");
    try (RunningService service = RunningService.embedded(data);
        CutNetwork network = CutNetwork.before(service.mqttPort(), () -> next(cuts))) {
      DeskSensor sensor = DeskSensor.compiled(folder, options(network.port()));
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      int runs = 0;
      while (!cuts.isEmpty()) {
        runOnce(sensor, ++runs % 2 == 0);
      }
      sensor.run(Form.of(1_200, 60), "--retry-max", "1", "--answer", "30000");
      assertTrue(sensor.lines().get(sensor.lines().size() - 1).endsWith("waiting 0"), "not sent");
      Tally tally = Health.settled(() -> grower);

      List<Reading> printed = printed(sensor);
      List<Reading> missing = new ArrayList<>();
      List<Reading> more =
          DeskReadings.more(DeskReadings.storedIn(data), printed, TOLERANCE_SECONDS, missing);
      String fault = "sensor cut off " + OUTAGES + " times, and killed";
      new Row(fault, tally, missing.size(), doubled(more, printed, runs / 2), 0).check();
      assertTrue(tally.repeated() > 0, "no PUBACK was lost: " + tally);
      assertEquals(0, tally.rejected());
      assertEquals(List.of(), documentedLinesNeverPrinted(sensor));
    }
  }

  /** Readings of ten minutes in one message, each with its age, as the sensor knows no time. */
  @Test
  void readingsOfASensorWithoutTimeGetTheirTimeFromTheirAge() {
    Path data = folder.resolve("data");
    try (RunningService service = RunningService.embedded(data)) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      List<String> options =
          List.of("--port", "" + service.mqttPort(), "--fast", "--no-clock", "--every", "60");
      DeskSensor sensor = DeskSensor.compiled(folder, options);
      sensor.run(630, "--send-every", "600");
      Health.settled(() -> grower);

      List<Long> sent =
          sensor.measured().stream().map(DeskSensor.Measured::uptimeSeconds).sorted().toList();
      assertEquals(11, sent.size());
      List<Reading> stored = DeskReadings.storedIn(data);
      long newest = stored.get(stored.size() - 1).second();
      List<Long> ages =
          stored.stream()
              .map(reading -> Math.round((newest - reading.second()) / 60.0) * 60)
              .sorted()
              .toList();
      // The first reading was sent at once; the others at uptime 600 s.
      assertEquals(List.of(0L, 0L, 60L, 120L, 180L, 240L, 300L, 360L, 420L, 480L, 540L), ages);
    }
  }

  private static List<String> options(int port) {
    String every = "" + EVERY_SECONDS;
    List<String> options = new ArrayList<>(List.of("--port", "" + port));
    if (!REAL_TIME) {
      options.addAll(List.of("--fast", "--start", "" + START_SECONDS, "--slow", "" + SLOW_PERCENT));
    }
    options.addAll(List.of("--every", every, "--send-every", every));
    options.addAll(List.of("--retry-first", "2", "--retry-max", Form.of(60, 8) + ""));
    options.addAll(List.of("--answer", Form.of(400, 4_000) + "", "--bad-checksums", "20"));
    return options;
  }

  /** Connections in a row that fail in different ways, with good ones in between. */
  private static Queue<Cut> cuts() {
    Random random = new Random(7);
    List<Cut> all = new ArrayList<>();
    for (int outage = 0; outage < OUTAGES; outage++) {
      all.addAll(Collections.nCopies(Form.of(5, 15) + random.nextInt(5), Cut.NONE));
      List<Cut> bad =
          new ArrayList<>(
              List.of(Cut.BEFORE_PUBACK, Cut.BEFORE_PUBLISH, Cut.REFUSED, Cut.BEFORE_PUBACK));
      if (outage % 3 == 0) {
        bad.add(Cut.SILENT);
      }
      Collections.shuffle(bad, random);
      all.addAll(bad);
    }
    return new ConcurrentLinkedQueue<>(all);
  }

  private static Cut next(Queue<Cut> cuts) {
    Cut cut = cuts.poll();
    return cut == null ? Cut.NONE : cut;
  }

  /** One run to its end, or one that is killed at any moment. */
  private static void runOnce(DeskSensor sensor, boolean killed) {
    Duration untilKilled = REAL_TIME ? Duration.ofSeconds(RUN_SECONDS) : Duration.ofMillis(60);
    if (killed) {
      sensor.run(RUN_SECONDS + 3_600, untilKilled);
    } else {
      sensor.run(RUN_SECONDS);
    }
  }

  /** Lines of the sample of serial output in the firmware notes; numbers do not matter. */
  private static List<String> documentedLinesNeverPrinted(DeskSensor sensor) throws IOException {
    String page = Files.readString(Path.of("firmware-notes/README.md"));
    String sample = page.split("```text\n")[1].split("```")[0];
    List<String> printed = sensor.lines().stream().map(DeskSensorIT::shape).toList();
    return sample.lines().filter(line -> !printed.contains(shape(line))).toList();
  }

  private static String shape(String line) {
    return line.replaceAll("(?<![a-z])[\\d.]+", "#");
  }

  private static List<Reading> printed(DeskSensor sensor) {
    return sensor.measured().stream()
        .map(one -> new Reading(utcSecond(one.uptimeSeconds()), one.temperature()))
        .toList();
  }

  private static long utcSecond(long uptimeSeconds) {
    return REAL_TIME
        ? uptimeSeconds + Math.round(System.currentTimeMillis() / 1e3 - System.nanoTime() / 1e9)
        : START_SECONDS + uptimeSeconds * 100 / (100 - SLOW_PERCENT);
  }

  /** A reading that was saved just before a kill may not have been printed. Others are doubled. */
  private static long doubled(List<Reading> more, List<Reading> printed, int kills) {
    long beside =
        more.stream()
            .filter(
                one ->
                    printed.stream()
                        .anyMatch(o -> Math.abs(o.second() - one.second()) < EVERY_SECONDS / 2))
            .count();
    return Math.max(beside, more.size() - kills);
  }
}
