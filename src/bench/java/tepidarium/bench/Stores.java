package tepidarium.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tepidarium.it.Influx;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSource;
import tepidarium.series.influx.InfluxReadings;
import tepidarium.series.sqlite.SqliteReadings;

/** Batches into each store, by the service's own part and bare, in turns; room on the disk. */
final class Stores {
  static final int SENSORS = 20;
  private static final int ROUNDS = 3;
  private static final int READS = 20;
  private static final Span EVER =
      new Span(Reading.EARLIEST, Instant.parse("2040-01-01T00:00:00Z"));
  static final long STEP_MS = 60_000;
  private static final long FIRST_MS = 1_772_344_800_000L;

  private final Path folder;
  private final int readings;

  Stores(Path folder, int readings) {
    this.folder = folder;
    this.readings = readings;
  }

  void run(Report report) throws Exception {
    for (int size : new int[] {5_000, 500}) {
      List<Double> ours = new ArrayList<>();
      List<Double> bare = new ArrayList<>();
      for (int round = 0; round < ROUNDS; round++) {
        bare.add(bareSqlite(readings, size));
        ours.add(sqlite(size));
      }
      report.ratio(
          "SQLite, batches of " + size,
          "",
          " readings/s",
          median(ours),
          "bare insert",
          median(bare));
    }
    long bytes = Files.size(file());
    report.figure(
        "room in `readings.db`, as they come in, four quantities",
        "at most 30 bytes",
        Report.figure((double) bytes / readings) + " bytes a reading");
    try (Influx server = Influx.started(Site.fresh(folder.resolve("influx")).data())) {
      List<Double> ours = new ArrayList<>();
      List<Double> bare = new ArrayList<>();
      for (int round = 0; round < ROUNDS; round++) {
        bare.add(bareInflux(server, "bare" + round, readings));
        try (InfluxReadings store = new InfluxReadings(server.address("ours" + round))) {
          ours.add(rate(readings, 5_000, store::write));
        }
      }
      report.ratio(
          "InfluxDB, batches of 5000",
          "at least 0.8",
          " readings/s",
          median(ours),
          "bare client",
          median(bare));
    }
  }

  private Path file() {
    return folder.resolve("store").resolve("readings.db");
  }

  private double sqlite(int size) throws Exception {
    Site.fresh(file().getParent());
    try (SqliteReadings store = SqliteReadings.open(file())) {
      return rate(readings, size, store::write);
    }
  }

  /** Readings a second into a file of the bare driver's. */
  double bareSqlite(int count, int size) throws Exception {
    Path bare = Site.fresh(folder.resolve("bare-store")).data();
    try (BareStores.Store store = BareStores.sqlite(bare.resolve("bare.db"))) {
      return rate(count, size, store::write);
    }
  }

  /** Readings a second into a server by the bare client. */
  static double bareInflux(Influx server, String database, int count) throws Exception {
    try (BareStores.Store store = BareStores.influx(server.address(database))) {
      return rate(count, 5_000, store::write);
    }
  }

  /** Takes batches. */
  interface Write {
    void write(List<Reading> batch) throws Exception;
  }

  private static double rate(int count, int size, Write store) throws Exception {
    return rate(count, size, SENSORS, STEP_MS, store);
  }

  /** Readings a second of sensors that each report once a step. */
  static double rate(int count, int size, int sensors, long stepMs, Write store) throws Exception {
    double seconds = 0;
    List<Reading> batch = new ArrayList<>(size);
    for (int i = 0; i < count; i++) {
      long round = i / sensors;
      batch.add(Load.reading(i % sensors, round, FIRST_MS + round * stepMs));
      if (batch.size() == size || i == count - 1) {
        long start = System.nanoTime();
        store.write(batch);
        seconds += Wait.secondsSince(start);
        batch.clear();
      }
    }
    return count / seconds;
  }

  /**
   * How a store is read.
   *
   * @param sensors they are read in turns
   * @param ofOne how many readings of each must come
   * @param warmUp first reads that are not measured
   */
  record Reads(int sensors, int ofOne, int warmUp) {}

  /** Reports how long it takes to read all readings of one sensor, which are of six weeks. */
  static void sixWeeks(Report report, String what, String goal, ReadingSource store, Reads reads) {
    List<Double> milliseconds = new ArrayList<>();
    for (int i = 0; i < reads.warmUp + READS; i++) {
      long start = System.nanoTime();
      Map<Quantity, Samples> read = store.read(Load.sensor(i % reads.sensors), EVER);
      double took = Wait.secondsSince(start) * 1e3;
      if (read.get(Quantity.TEMPERATURE).size() != reads.ofOne) {
        throw new IllegalStateException("rows are missing");
      }
      if (i >= reads.warmUp) {
        milliseconds.add(took);
      }
    }
    report.figure(
        "six weeks of " + what,
        goal,
        "median "
            + Report.figure(median(milliseconds))
            + " ms for "
            + String.format(Locale.ROOT, "%,d", reads.ofOne)
            + " readings");
  }

  static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    int middle = sorted.size() / 2;
    return sorted.size() % 2 == 1
        ? sorted.get(middle)
        : (sorted.get(middle - 1) + sorted.get(middle)) / 2;
  }

  static double percentile(List<Double> values, double share) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
  }
}
