package tepidarium.rollup.sqlite;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatSum;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Quantity;
import tepidarium.reading.TimeWeighted;
import tepidarium.rollup.LimitTime;
import tepidarium.rollup.RollupRow;
import tepidarium.rollup.RollupStore;
import tepidarium.rollup.SensorDayStore;
import tepidarium.rollup.Summary;
import tepidarium.series.StoreException;
import tepidarium.sqlite.ReaderPool;
import tepidarium.sqlite.Schema;
import tepidarium.sqlite.SqliteFile;

/**
 * Stores hourly rollups in one SQLite file, with one synchronized write connection and a pool of
 * read connections.
 */
public final class SqliteRollups implements RollupStore, AutoCloseable {
  /** The schema that this version reads and writes. */
  public static final Schema SCHEMA = new Schema("db/ledger", 7);

  private static final Quantity[] QUANTITIES = Quantity.values();

  /** The columns of a row, in the order in which they are read and written. */
  private static final List<String> COLUMNS = columns();

  private static final int FIXED_COLUMNS = 15;
  private static final int SUMMARY_COLUMNS = 6;
  private static final int TIME_WEIGHTED_COLUMNS = 5;
  private static final int HISTOGRAM_COLUMN =
      FIXED_COLUMNS + SUMMARY_COLUMNS * QUANTITIES.length + 1;

  private static final String PUT =
      "INSERT OR REPLACE INTO hour ("
          + String.join(", ", COLUMNS)
          + ") VALUES ("
          + String.join(", ", Collections.nCopies(COLUMNS.size(), "?"))
          + ")";

  private interface Work {
    void run() throws SQLException;
  }

  private final Connection writer;
  private final ReaderPool readers;

  private SqliteRollups(SqliteFile file) throws SQLException {
    writer = file.writer();
    writer.setAutoCommit(false);
    readers = new ReaderPool(file);
  }

  /**
   * Opens or creates the file.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  public static SqliteRollups open(Path path) {
    try {
      return new SqliteRollups(SqliteFile.open(path, SCHEMA));
    } catch (SQLException e) {
      throw new IllegalStateException("cannot open the hourly rollups in " + path, e);
    }
  }

  @Override
  public List<RollupRow> read(ContainerId container, long fingerprint, long fromMs, long toMs) {
    String sql =
        "SELECT "
            + String.join(", ", COLUMNS)
            + " FROM hour WHERE container_id = ? AND hour_ms >= ? AND hour_ms < ?"
            + " AND (basis = ? OR hour_ms < (SELECT at_ms FROM raw_from))"
            + " ORDER BY hour_ms";
    return readers.with(
        connection -> {
          try (PreparedStatement statement = connection.prepareStatement(sql)) {
            statement.setString(1, container.value());
            statement.setLong(2, fromMs);
            statement.setLong(3, toMs);
            statement.setLong(4, fingerprint);
            List<RollupRow> rows = new ArrayList<>();
            try (ResultSet row = statement.executeQuery()) {
              while (row.next()) {
                rows.add(row(row));
              }
            }
            return rows;
          }
        });
  }

  /** The fault searches of sensors, in the same file. */
  public SensorDayStore sensorDays() {
    return new SensorDayTable(readers, change -> transaction(() -> change.apply(writer)));
  }

  /**
   * Begins an epoch of a shared database. Deletes sums and fault searches if another service owned
   * the database since the last epoch of this file.
   */
  public void follow(long epoch) {
    transaction(() -> SharedReadings.follow(writer, epoch));
  }

  private static List<String> columns() {
    List<String> columns = new ArrayList<>();
    Collections.addAll(columns, "container_id", "hour_ms", "basis", "degree_hours", "above_hours");
    Collections.addAll(columns, "covered_ms", "gap_ms", "lux_hours", "cold_ms", "hot_ms");
    Collections.addAll(columns, "light_ms", "light_seen_ms", "dry_ms", "dry_seen_ms");
    columns.add("left_out_ms");
    // The column names contain the quantity's position in the enum, from 1.
    for (int i = 1; i <= QUANTITIES.length; i++) {
      for (String part : List.of("n", "sum", "min", "max", "first_ms", "last_ms")) {
        columns.add("s" + i + '_' + part);
      }
    }
    columns.add("warmth");
    for (int i = 1; i <= QUANTITIES.length; i++) {
      for (String part : List.of("ms", "mean", "squares", "min", "max")) {
        columns.add("w" + i + '_' + part);
      }
    }
    return List.copyOf(columns);
  }

  private static RollupRow row(ResultSet row) throws SQLException {
    long covered = row.getLong(6);
    HeatSum heat =
        new HeatSum(
            row.getDouble(4),
            row.getDouble(5),
            covered,
            row.getLong(7),
            row.getLong(FIXED_COLUMNS));
    Map<Quantity, Summary> summaries = new EnumMap<>(Quantity.class);
    for (int i = 0; i < QUANTITIES.length; i++) {
      int first = FIXED_COLUMNS + 1 + i * SUMMARY_COLUMNS;
      int count = row.getInt(first);
      if (count > 0) {
        summaries.put(
            QUANTITIES[i],
            new Summary(
                count,
                row.getDouble(first + 1),
                row.getDouble(first + 2),
                row.getDouble(first + 3),
                row.getLong(first + 4),
                row.getLong(first + 5)));
      }
    }
    return new RollupRow(
        row.getLong(2),
        heat,
        row.getDouble(8),
        new LimitTime(covered, row.getDouble(9)),
        new LimitTime(covered, row.getDouble(10)),
        new LimitTime(row.getLong(12), row.getDouble(11)),
        new LimitTime(row.getLong(14), row.getDouble(13)),
        TemperatureHistogram.fromBytes(
            row.getBytes(HISTOGRAM_COLUMN), covered, heat.gapMs(), heat.leftOutMs()),
        summaries,
        timeWeighted(row));
  }

  private static Map<Quantity, TimeWeighted> timeWeighted(ResultSet row) throws SQLException {
    Map<Quantity, TimeWeighted> timeWeighted = new EnumMap<>(Quantity.class);
    for (int i = 0; i < QUANTITIES.length; i++) {
      int first = HISTOGRAM_COLUMN + 1 + i * TIME_WEIGHTED_COLUMNS;
      long coveredMs = row.getLong(first);
      if (coveredMs > 0) {
        double mean = row.getDouble(first + 1);
        double squares = row.getDouble(first + 2);
        squares = row.wasNull() ? Double.NaN : squares;
        double min = row.getDouble(first + 3);
        double max = row.getDouble(first + 4);
        timeWeighted.put(QUANTITIES[i], new TimeWeighted(coveredMs, mean, squares, min, max));
      }
    }
    return timeWeighted;
  }

  @Override
  public void put(ContainerId container, long fingerprint, List<RollupRow> rows) {
    transaction(
        () -> {
          try (PreparedStatement statement = writer.prepareStatement(PUT)) {
            for (RollupRow row : rows) {
              bind(statement, container, fingerprint, row);
              statement.addBatch();
            }
            statement.executeBatch();
          }
        });
  }

  private static void bind(
      PreparedStatement statement, ContainerId container, long fingerprint, RollupRow row)
      throws SQLException {
    statement.setString(1, container.value());
    statement.setLong(2, row.fromMs());
    statement.setLong(3, fingerprint);
    statement.setDouble(4, row.heat().degreeHours());
    statement.setDouble(5, row.heat().hoursAboveBase());
    statement.setLong(6, row.heat().coveredMs());
    statement.setLong(7, row.heat().gapMs());
    statement.setDouble(8, row.luxHours());
    statement.setDouble(9, row.cold().outsideMs());
    statement.setDouble(10, row.hot().outsideMs());
    statement.setDouble(11, row.light().outsideMs());
    statement.setLong(12, row.light().coveredMs());
    statement.setDouble(13, row.dry().outsideMs());
    statement.setLong(14, row.dry().coveredMs());
    statement.setLong(FIXED_COLUMNS, row.heat().leftOutMs());
    for (int i = 0; i < QUANTITIES.length; i++) {
      bind(statement, FIXED_COLUMNS + 1 + i * SUMMARY_COLUMNS, row.summary(QUANTITIES[i]));
    }
    statement.setBytes(HISTOGRAM_COLUMN, row.histogram().toBytes());
    for (int i = 0; i < QUANTITIES.length; i++) {
      bind(
          statement,
          HISTOGRAM_COLUMN + 1 + i * TIME_WEIGHTED_COLUMNS,
          row.timeWeighted(QUANTITIES[i]));
    }
  }

  private static void bind(PreparedStatement statement, int first, @Nullable Summary summary)
      throws SQLException {
    if (summary == null) {
      statement.setInt(first, 0);
      for (int i = 1; i < SUMMARY_COLUMNS; i++) {
        statement.setNull(first + i, Types.REAL);
      }
      return;
    }
    statement.setInt(first, summary.count());
    statement.setDouble(first + 1, summary.sum());
    statement.setDouble(first + 2, summary.min());
    statement.setDouble(first + 3, summary.max());
    statement.setLong(first + 4, summary.firstMs());
    statement.setLong(first + 5, summary.lastMs());
  }

  /**
   * Binds the time-weighted columns. The driver stores NaN as NULL, the same as a missing value.
   */
  private static void bind(PreparedStatement statement, int first, TimeWeighted timeWeighted)
      throws SQLException {
    statement.setLong(first, timeWeighted.coveredMs());
    double[] values = {
      timeWeighted.mean(), timeWeighted.squares(), timeWeighted.min(), timeWeighted.max()
    };
    for (int i = 0; i < values.length; i++) {
      if (timeWeighted.coveredMs() == 0 || Double.isNaN(values[i])) {
        statement.setNull(first + 1 + i, Types.REAL);
      } else {
        statement.setDouble(first + 1 + i, values[i]);
      }
    }
  }

  @Override
  public void delete(ContainerId container, long fromMs, long toMs) {
    transaction(
        () -> {
          try (PreparedStatement statement =
              writer.prepareStatement(
                  "DELETE FROM hour WHERE container_id = ? AND hour_ms >= ? AND hour_ms < ?")) {
            statement.setString(1, container.value());
            statement.setLong(2, fromMs);
            statement.setLong(3, toMs);
            statement.executeUpdate();
          }
        });
  }

  private synchronized void transaction(Work work) {
    try {
      work.run();
      writer.commit();
    } catch (SQLException e) {
      try {
        writer.rollback();
      } catch (SQLException again) {
        e.addSuppressed(again);
      }
      throw new StoreException("cannot write hourly rollups: " + e.getMessage(), e);
    }
  }

  @Override
  public long storedUntilMs(ContainerId container) {
    return readers.with(
        connection -> {
          try (PreparedStatement statement =
              connection.prepareStatement("SELECT max(hour_ms) FROM hour WHERE container_id = ?")) {
            statement.setString(1, container.value());
            try (ResultSet row = statement.executeQuery()) {
              long last = row.next() ? row.getLong(1) : 0;
              return row.wasNull() ? 0 : last + 3_600_000L;
            }
          }
        });
  }

  @Override
  public OptionalLong storedFromMs(ContainerId container) {
    return readers.with(
        connection -> {
          try (PreparedStatement statement =
              connection.prepareStatement("SELECT min(hour_ms) FROM hour WHERE container_id = ?")) {
            statement.setString(1, container.value());
            try (ResultSet row = statement.executeQuery()) {
              long first = row.next() ? row.getLong(1) : 0;
              return row.wasNull() ? OptionalLong.empty() : OptionalLong.of(first);
            }
          }
        });
  }

  @Override
  public long rawFromMs() {
    return readers.with(
        connection -> {
          try (PreparedStatement statement =
                  connection.prepareStatement("SELECT at_ms FROM raw_from");
              ResultSet row = statement.executeQuery()) {
            return row.next() ? row.getLong(1) : 0;
          }
        });
  }

  @Override
  public void rawFromMs(long instantMs) {
    transaction(
        () -> {
          try (PreparedStatement statement =
              writer.prepareStatement("UPDATE raw_from SET at_ms = max(at_ms, ?)")) {
            statement.setLong(1, instantMs);
            statement.executeUpdate();
          }
        });
  }

  @Override
  public synchronized void close() {
    readers.close();
    try {
      writer.close();
    } catch (SQLException e) {
      throw new StoreException("cannot close the hourly rollups", e);
    }
  }
}
