package tepidarium.moving;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.WriteResult;
import tepidarium.series.sqlite.SqliteReadings;

/** Readings copied from one file to another. */
class ReadingMoveTest {
  private static final Instant START = Instant.parse("2026-03-01T22:30:00Z");
  private static final SensorId BAG = new SensorId("bag");
  private static final SensorId JAR = new SensorId("jar");
  private static final int STEPS = 100;

  @TempDir private Path folder;
  private SqliteReadings source;
  private SqliteReadings target;
  private final List<String> progress = new ArrayList<>();
  private int written;

  @BeforeEach
  void open() {
    source = SqliteReadings.open(folder.resolve("source.db"));
    target = SqliteReadings.open(folder.resolve("target.db"));
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < STEPS; i++) {
      Instant at = START.plus(Duration.ofMinutes(15L * i));
      readings.add(reading(BAG, at, Map.of(Quantity.TEMPERATURE, 30 + i / 100.0)));
      // A day without readings lies in between, and each other one lacks the humidity.
      Instant later = i < STEPS / 2 ? at : at.plus(Duration.ofDays(2));
      readings.add(
          reading(
              JAR,
              later,
              i % 2 == 0
                  ? Map.of(Quantity.TEMPERATURE, -0.0001 * i, Quantity.HUMIDITY, 95.0)
                  : Map.of(Quantity.TEMPERATURE, 0.0)));
    }
    source.write(readings);
  }

  @AfterEach
  void close() {
    source.close();
    target.close();
  }

  private static Reading reading(SensorId sensor, Instant at, Map<Quantity, Double> values) {
    return new Reading(sensor, at, values, null);
  }

  private ReadingMove.Outcome move(ReadingSink sink) {
    return new ReadingMove(
            source,
            target,
            sink,
            (sensor, day, left, share, readings) ->
                progress.add("%s %d %.2f %d".formatted(sensor.name(), left, share, readings)))
        .run();
  }

  private WriteResult counted(List<Reading> batch) {
    written += batch.size();
    return target.write(batch);
  }

  private static ReadingMove.Outcome complete(long verified, long stored) {
    return new ReadingMove.Outcome(verified, stored, 0, List.of());
  }

  @Test
  void everyReadingIsCopiedAndTheProgressTold() {
    assertEquals(complete(2 * STEPS, 2 * STEPS), move(this::counted));
    Span all = new Span(START, START.plus(Duration.ofDays(9)));
    for (SensorId sensor : List.of(BAG, JAR)) {
      assertEquals(
          new SensorReadings(sensor, source.read(sensor, all), false).sums(),
          new SensorReadings(sensor, target.read(sensor, all), false).sums());
    }
    assertEquals(
        List.of(
            "bag 1 0.17 6", "bag 1 0.33 100", "jar 0 0.50 106", "jar 0 0.67 150", "jar 0 1.00 200"),
        progress);
  }

  @Test
  void aMoveThatBrokeGoesOnWhereItWas() {
    ReadingSink broken =
        batch -> {
          if (written > 0) {
            throw new IllegalStateException("killed");
          }
          return counted(batch);
        };
    assertThrows(IllegalStateException.class, () -> move(broken));
    int before = written;
    assertEquals(complete(2 * STEPS, 2 * STEPS - before), move(this::counted));
    assertEquals(2 * STEPS, written);
    assertEquals(complete(2 * STEPS, 0), move(this::counted));
    assertEquals(2 * STEPS, written);
  }

  @Test
  void onlyTheHourOfALateReadingIsCopiedAgain() {
    move(this::counted);
    written = 0;
    source.write(List.of(reading(BAG, START.plusSeconds(3), Map.of(Quantity.TEMPERATURE, 20.0))));
    assertEquals(complete(2 * STEPS + 1, 1), move(this::counted));
    assertEquals(3, written);
  }

  @Test
  void aMissingQuantityIsCompleted() {
    move(this::counted);
    source.write(List.of(reading(BAG, START, Map.of(Quantity.BATTERY, 3.1))));
    assertEquals(complete(2 * STEPS, 1), move(this::counted));
  }

  @Test
  void anHourThatDiffersIsCopiedTwiceAndReported() {
    target.write(List.of(reading(BAG, START, Map.of(Quantity.TEMPERATURE, 29.0))));
    ReadingMove.Outcome outcome = move(this::counted);
    assertEquals(1, outcome.differingHours());
    assertEquals(List.of("bag, 2026-03-01T22:00:00Z"), outcome.differing());
    assertEquals(2 * STEPS - 2, outcome.verified());
    assertEquals(2 * STEPS + 2, written);
  }

  /** Within a gap of the source and after its end. */
  @Test
  void aReadingThatOnlyTheTargetHasIsReported() {
    target.write(
        List.of(
            reading(JAR, START.plus(Duration.ofDays(2)), Map.of(Quantity.TEMPERATURE, 1.0)),
            reading(JAR, START.plus(Duration.ofDays(8)), Map.of(Quantity.TEMPERATURE, 1.0))));
    assertEquals(
        List.of("jar, 2026-03-03T22:00:00Z", "jar, 2026-03-09T22:00:00Z"),
        move(this::counted).differing());
  }

  @Test
  void readingsThatTheSourceHasDeletedSinceAreNoDifference() {
    move(this::counted);
    source.deleteBefore(START.plus(Duration.ofMinutes(40)), 10_000);
    assertEquals(complete(2 * STEPS - 6, 0), move(this::counted));
  }

  @Test
  void readingsOfUncertainTimeStayUncertain() {
    Arrival uncertain = new Arrival(0, false, true);
    source.write(
        List.of(
            new Reading(BAG, START, Map.of(Quantity.TEMPERATURE, 5.0), uncertain),
            new Reading(BAG, START.plusMillis(1), Map.of(Quantity.TEMPERATURE, 6.0), uncertain)));
    assertEquals(complete(2 * STEPS + 2, 2 * STEPS + 2), move(this::counted));
    assertEquals(source.uncertain(), target.uncertain());
    Span all = new Span(Instant.EPOCH, START.plusSeconds(1));
    assertEquals(6.0, target.readUncertain(BAG, all).get(Quantity.TEMPERATURE).value(1));
  }

  @Test
  void sensorsOfOtherDataAreForeign() {
    SensorId other = new SensorId("other");
    target.write(List.of(reading(other, START, Map.of(Quantity.TEMPERATURE, 1.0))));
    ReadingMove move = new ReadingMove(source, target, target, (a, b, c, d, e) -> {});
    assertEquals(List.of(other), move.foreign());
    assertTrue(new ReadingMove(target, target, target, (a, b, c, d, e) -> {}).foreign().isEmpty());
  }
}
