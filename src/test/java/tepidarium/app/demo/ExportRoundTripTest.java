package tepidarium.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.exporting.ExportFormat;
import tepidarium.exporting.ExportOptions;
import tepidarium.exporting.ReadingExport;
import tepidarium.importing.ImportOptions;
import tepidarium.importing.LoggerFile;
import tepidarium.importing.RowReceiver;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.MemoryReadings;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.sqlite.SqliteReadings;

/** An export that is imported into an empty store gives the same readings, value by value. */
class ExportRoundTripTest {
  private static final Instant NOW = Instant.parse("2026-03-29T09:30:00Z");
  private static final Span ALL = new Span(Reading.EARLIEST, Instant.parse("2099-01-01T00:00:00Z"));

  @TempDir private static Path folder;
  private static SqliteReadings demo;
  private final MemoryReadings odd = new MemoryReadings();

  @BeforeAll
  static void storeTheDemo() {
    demo = SqliteReadings.open(folder.resolve("demo.db"));
    Garden garden = Garden.of(new DemoCalendar(NOW, ZoneOffset.UTC));
    List<Reading> readings = new ArrayList<>();
    Backlog.of(garden)
        .flatMap(List::stream)
        .forEach(message -> readings.addAll(message.readings()));
    demo.write(readings);
  }

  @AfterAll
  static void close() {
    demo.close();
  }

  /** Collects readings and stores them in batches. */
  private final class Storing implements RowReceiver {
    private final List<Reading> batch = new ArrayList<>();

    @Override
    public boolean reading(long line, Reading reading) {
      batch.add(reading);
      return true;
    }

    @Override
    public boolean bad(long line, String reason, String text) {
      throw new AssertionError("line " + line + ' ' + reason + ": " + text);
    }

    @Override
    public boolean empty(long line) {
      throw new AssertionError("line " + line + " is empty");
    }
  }

  private static ReadingExport exportOf(ReadingSource source) {
    return new ReadingExport(source, new Register(new MemoryContainers()));
  }

  /** Exports everything and stores it again; returns the number of readings. */
  private <S extends ReadingSource & ReadingSink> long copy(
      ReadingSource before, S after, ExportFormat format) throws IOException {
    Path file = folder.resolve("readings." + format.extension());
    ExportOptions all = new ExportOptions(format, null, null, null, null, false);
    long written;
    try (Writer writer = Files.newBufferedWriter(file)) {
      written = exportOf(before).write(all, writer);
    }
    // The zone of the importing service must not matter.
    ImportOptions options =
        ImportOptions.guessAll(
            file.getFileName().toString(), ZoneId.of("America/New_York"), NOW.plusSeconds(300));
    Storing storing = new Storing();
    LoggerFile.open(() -> Files.newInputStream(file), options).read(storing);
    assertEquals(storing.batch.size(), after.write(storing.batch).stored());
    assertEquals(rows(before), rows(after));
    return written;
  }

  /** Every row of a store: values in 0.0001 units by sensor and instant. */
  private static Map<SensorId, Map<Long, Map<Quantity, Double>>> rows(ReadingSource source) {
    Map<SensorId, Map<Long, Map<Quantity, Double>>> rows = new TreeMap<>();
    for (SensorId sensor : source.summaries().keySet()) {
      Map<Long, Map<Quantity, Double>> own = rows.computeIfAbsent(sensor, any -> new TreeMap<>());
      source
          .read(sensor, ALL)
          .forEach(
              (quantity, samples) -> {
                for (int i = 0; i < samples.size(); i++) {
                  own.computeIfAbsent(samples.atMs(i), any -> new TreeMap<>())
                      .put(quantity, samples.value(i));
                }
              });
    }
    return rows;
  }

  @ParameterizedTest
  @EnumSource
  void theWholeDemoSurvives(ExportFormat format) throws IOException {
    try (SqliteReadings after = SqliteReadings.open(folder.resolve(format.key() + ".db"))) {
      long written = copy(demo, after, format);
      assertTrue(written > 70_000, written + " readings");
    }
  }

  @ParameterizedTest
  @EnumSource
  void unusualReadingsSurvive(ExportFormat format) throws IOException {
    List<Reading> readings = new ArrayList<>();
    // More sensors than readings of one, and numbers as names.
    for (int i = 0; i < 1_200; i++) {
      SensorId sensor = new SensorId(i % 2 == 0 ? "jar_" + i : String.valueOf(i));
      Instant at = NOW.minusSeconds(86_400L * i).plusMillis(i % 3);
      Quantity quantity = Quantity.values()[i % Quantity.values().length];
      readings.add(new Reading(sensor, at, Map.of(quantity, i / 10_000.0), null));
    }
    SensorId one = new SensorId("-_-");
    readings.add(
        new Reading(one, NOW.minusMillis(1), Map.of(Quantity.TEMPERATURE, -54.9999), null));
    readings.add(new Reading(one, NOW, Map.of(Quantity.LIGHT, 199_999.9999), null));
    readings.add(
        new Reading(
            one, Reading.EARLIEST, Map.of(Quantity.BATTERY, 0.0, Quantity.HUMIDITY, 110.0), null));
    odd.write(readings);
    assertEquals(readings.size(), copy(odd, new MemoryReadings(), format));
  }
}
