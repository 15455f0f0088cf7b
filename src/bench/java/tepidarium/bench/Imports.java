package tepidarium.bench;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/**
 * The command that imports files of other loggers, as a process of its own, against the same
 * readings inserted by the bare driver without reading a file.
 */
final class Imports {
  private static final int BATCH = 10_000;

  /** 2024-01-01: ten million rows of all sensors end a year later, in the past. */
  private static final long FIRST_MS = 1_704_067_200_000L;

  private final Path folder;
  private final int rows;

  Imports(Path folder, int rows) {
    this.folder = folder.resolve("import");
    this.rows = rows;
  }

  private interface Line {
    void write(Writer file, Reading reading) throws IOException;
  }

  void run(Report report) throws Exception {
    Site.fresh(folder);
    Path csv = folder.resolve("sensors.csv");
    write(csv, "time,sensor,temperature,humidity,light,battery\n", Imports::csv);
    Path lines = folder.resolve("sensors.txt");
    write(lines, "", Imports::lineProtocol);
    double before = new Stores(folder, rows).bareSqlite(rows, BATCH);
    double empty = imported(csv, "data", rows);
    double again = imported(csv, "data", 0);
    double protocol = imported(lines, "data-of-lines", rows);
    double after = new Stores(folder, rows).bareSqlite(rows, BATCH);
    double bare = (before + after) / 2;
    String ceiling =
        "bare insert, mean of %s before and %s after"
            .formatted(Report.figure(before), Report.figure(after));
    String size = String.format(Locale.ROOT, "%,d rows", rows);
    report.ratio("import of CSV, " + size, "", " rows/s", empty, ceiling, bare);
    report.ratio("the same CSV file again", "", " rows/s", again, ceiling, bare);
    report.ratio("import of line protocol, " + size, "", " rows/s", protocol, ceiling, bare);
    Site.remove(folder);
  }

  private void write(Path path, String header, Line line) throws IOException {
    try (Writer file = Files.newBufferedWriter(path)) {
      file.write(header);
      for (int i = 0; i < rows; i++) {
        long round = i / Stores.SENSORS;
        line.write(
            file, Load.reading(i % Stores.SENSORS, round, FIRST_MS + round * Stores.STEP_MS));
      }
    }
  }

  private static void csv(Writer file, Reading reading) throws IOException {
    file.write(
        reading.at()
            + ","
            + reading.sensor()
            + ","
            + reading.value(Quantity.TEMPERATURE)
            + ","
            + reading.value(Quantity.HUMIDITY)
            + ","
            + reading.value(Quantity.LIGHT)
            + ","
            + reading.value(Quantity.BATTERY)
            + "\n");
  }

  private static void lineProtocol(Writer file, Reading reading) throws IOException {
    file.write(
        "reading,sensor="
            + reading.sensor()
            + " temperature="
            + reading.value(Quantity.TEMPERATURE)
            + ",humidity="
            + reading.value(Quantity.HUMIDITY)
            + ",light="
            + reading.value(Quantity.LIGHT)
            + ",battery="
            + reading.value(Quantity.BATTERY)
            + " "
            + at(reading.at())
            + "\n");
  }

  private static String at(Instant time) {
    return time.toEpochMilli() + "000000";
  }

  /** Rows a second from the start of the command to its end. */
  private double imported(Path file, String data, int stored) throws Exception {
    Path output = folder.resolve("output");
    ProcessBuilder builder =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                "tepidarium.app.Main",
                "import",
                "--data=" + folder.resolve(data),
                file.toString())
            .redirectErrorStream(true)
            .redirectOutput(output.toFile());
    builder.environment().putAll(Site.environment(Site.SMALL));
    long start = System.nanoTime();
    Process process = builder.start();
    int status;
    try {
      status = process.waitFor();
    } finally {
      process.destroyForcibly();
    }
    double rate = rows / Wait.secondsSince(start);
    String said = Files.readString(output);
    System.err.println(said.strip().lines().reduce("", (first, last) -> last));
    String expected =
        String.format(Locale.ROOT, "%,d readings stored, %,d already", stored, rows - stored);
    if (status != 0 || !said.contains(expected)) {
      throw new IllegalStateException("expected " + expected + ", but it said: " + said);
    }
    return rate;
  }
}
