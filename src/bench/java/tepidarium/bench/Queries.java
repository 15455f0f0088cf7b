package tepidarium.bench;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tepidarium.it.Api;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;
import tepidarium.series.sqlite.SqliteReadings;

/**
 * What pages ask for, with more and more readings in the store: every sensor reports once a minute
 * for ten weeks, and there are ever more sensors; six containers hold one each. A folder that was
 * filled by an earlier run is used again.
 */
final class Queries {
  private static final int READINGS_OF_ONE = 100_000;
  private static final int CONTAINERS = 6;
  private static final int WARM_UP = 10;
  private static final int ASKED = 40;
  private static final Duration SIX_WEEKS = Duration.ofDays(42);

  private static final String FILL =
      """
      WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < ?)
      INSERT OR IGNORE INTO reading (sensor_id, at_ms, temperature, humidity, light, battery)
      SELECT ?, ? + i * 60000, 300000 + random() % 15000, 950000 + random() % 30000, 0, 39000
      FROM n
      """;

  private final Path folder;
  private final List<Integer> millions;

  Queries(Path folder, List<Integer> millions) {
    this.folder = folder;
    this.millions = millions;
  }

  void run(Report report) throws SQLException {
    for (int size : millions) {
      Site site = Site.at(folder.resolve("rows-" + size + "m"));
      Instant last = fill(site, (int) (size * 1_000_000L / READINGS_OF_ONE));
      try (ServiceProcess service = site.start(Ports.free(), Site.EMBEDDED, Site.SMALL, Map.of())) {
        ask(report, size, new Api(service.grower().api().base()), last);
        report.figure(
            "service's process, " + size + " million rows",
            "",
            "at most "
                + Report.figure(new ProcessFigures(service.pid()).peakMegabytes())
                + " MiB resident");
      }
    }
  }

  private void ask(Report report, int size, Api api, Instant last) {
    String span = "?from=" + last.minus(SIX_WEEKS) + "&to=" + last;
    String bag = "/api/containers/" + Site.container(0);
    tell(report, "shelf data", size, api, "/api/containers");
    tell(report, "six weeks of readings", size, api, bag + "/readings" + span + "&points=600");
    tell(report, "heat of six weeks", size, api, bag + "/heat" + span);
  }

  private static void tell(Report report, String what, int size, Api api, String path) {
    List<Double> milliseconds = new ArrayList<>();
    for (int i = 0; i < WARM_UP + ASKED; i++) {
      long start = System.nanoTime();
      Api.Answer answer = api.call("GET", path, null);
      double took = (System.nanoTime() - start) / 1e6;
      if (answer.status() != 200) {
        throw new IllegalStateException(path + ": " + answer.status());
      }
      if (i >= WARM_UP) {
        milliseconds.add(took);
      }
    }
    report.figure(
        what + ", " + size + " million rows",
        "median under 50 ms, flat",
        "median "
            + Report.figure(Stores.median(milliseconds))
            + " ms, p99 "
            + Report.figure(Stores.percentile(milliseconds, 0.99))
            + " ms");
  }

  /** Fills the store unless it is; the newest instant in it. */
  private static Instant fill(Site site, int sensors) throws SQLException {
    Path path = site.data().resolve("readings.db");
    SqliteReadings.open(path).close();
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + path);
        Statement statement = file.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = OFF");
      int filled = number(statement, "SELECT count(*) FROM sensor").intValue();
      if (filled == 0) {
        site.plant(CONTAINERS, 1);
      }
      long newest =
          filled == 0
              ? System.currentTimeMillis() / 60_000 * 60_000
              : number(statement, "SELECT max(at_ms) FROM reading WHERE sensor_id = 1").longValue();
      file.setAutoCommit(false);
      for (int sensor = filled; sensor < sensors; sensor++) {
        fillOne(file, sensor, newest);
        if (sensor % 50 == 49) {
          System.err.printf("  filled %,d readings%n", (sensor + 1L) * READINGS_OF_ONE);
        }
      }
      return Instant.ofEpochMilli(newest);
    }
  }

  private static Number number(Statement statement, String sql) throws SQLException {
    try (ResultSet row = statement.executeQuery(sql)) {
      row.next();
      return row.getLong(1);
    }
  }

  private static void fillOne(Connection file, int sensor, long newest) throws SQLException {
    try (PreparedStatement name = file.prepareStatement("INSERT INTO sensor VALUES (?, ?)");
        PreparedStatement rows = file.prepareStatement(FILL)) {
      name.setInt(1, sensor + 1);
      name.setString(2, Load.sensor(sensor).name());
      name.executeUpdate();
      rows.setInt(1, READINGS_OF_ONE - 1);
      rows.setInt(2, sensor + 1);
      rows.setLong(3, newest - (READINGS_OF_ONE - 1) * 60_000L);
      rows.executeUpdate();
      file.commit();
    }
  }
}
