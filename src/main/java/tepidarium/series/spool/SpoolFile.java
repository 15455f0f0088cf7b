package tepidarium.series.spool;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.StoreException;
import tepidarium.series.sql.QuantityColumns;
import tepidarium.sqlite.Schema;
import tepidarium.sqlite.SqliteFile;

/**
 * A durable queue of readings in one SQLite file of limited size. Each append and removal is on
 * disk when the method returns. Thread-safe; transactions run one at a time.
 */
final class SpoolFile implements AutoCloseable {
  private static final Schema SCHEMA = new Schema("db/spool", Spool.SCHEMA_VERSION);

  /** An empty queue file larger than this is compacted. */
  private static final long COMPACT_ABOVE_BYTES = 16L << 20;

  private static final String INSERT =
      "INSERT INTO waiting (sensor, at_ms, "
          + QuantityColumns.NAMES
          + ", delivery, again, uncertain) VALUES (?, ?, "
          + QuantityColumns.each(name -> "?", ", ")
          + ", ?, ?, ?)";
  private static final String OLDEST =
      "SELECT id, sensor, at_ms, "
          + QuantityColumns.NAMES
          + ", delivery, again, uncertain FROM waiting ORDER BY id LIMIT ?";

  /** The oldest readings, and the row id up to which {@link #remove} deletes. */
  record Batch(long lastId, List<Reading> readings) {}

  private final SqliteFile file;
  private final Connection connection;
  private final long limitBytes;
  private final long compactAboveBytes;
  private final long pageBytes;
  private final AtomicLong size = new AtomicLong();
  private volatile double share;

  private SpoolFile(SqliteFile file, long limitBytes, long compactAboveBytes) throws SQLException {
    this.file = file;
    this.limitBytes = limitBytes;
    this.compactAboveBytes = compactAboveBytes;
    connection = file.writer();
    pageBytes = number("PRAGMA page_size");
    // SQLite enforces the limit. A file that is already larger keeps its size.
    number("PRAGMA max_page_count = " + limitBytes / pageBytes);
    size.set(number("SELECT count(*) FROM waiting"));
    share = measuredShare();
  }

  /**
   * Opens or creates the file.
   *
   * @throws IllegalStateException when the file cannot be used; the message names it
   */
  static SpoolFile open(Path path, long limitBytes) {
    return open(path, limitBytes, COMPACT_ABOVE_BYTES);
  }

  /** Opens or creates a file that is compacted when it is empty and larger than a size. */
  static SpoolFile open(Path path, long limitBytes, long compactAboveBytes) {
    try {
      return new SpoolFile(SqliteFile.open(path, SCHEMA), limitBytes, compactAboveBytes);
    } catch (SQLException e) {
      throw new IllegalStateException("cannot open the spool " + path, e);
    }
  }

  private long number(String sql) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      return row.next() ? row.getLong(1) : 0;
    }
  }

  /** Number of queued readings. */
  long size() {
    return size.get();
  }

  /** Used part of the size limit, 0 to 1. */
  double share() {
    return share;
  }

  private double measuredShare() throws SQLException {
    long pages = number("PRAGMA page_count") - number("PRAGMA freelist_count");
    return (double) pages * pageBytes / limitBytes;
  }

  private interface Step<T> {
    T run() throws SQLException;
  }

  /**
   * Runs a step in an explicit transaction. The driver's own transaction state becomes wrong when
   * SQLite rolls back because the disk is full.
   */
  private synchronized <T> T transaction(String what, Step<T> step) {
    try {
      file.requireInPlace();
      execute("BEGIN IMMEDIATE");
      T result = step.run();
      double used = measuredShare();
      execute("COMMIT");
      share = used;
      return result;
    } catch (SQLException e) {
      undo(e);
      throw failed(what, e);
    }
  }

  private void execute(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private void undo(SQLException cause) {
    try {
      execute("ROLLBACK");
    } catch (SQLException e) {
      // SQLite may have rolled back already.
      cause.addSuppressed(e);
    }
  }

  private StoreException failed(String what, SQLException e) {
    if (SQLiteErrorCode.getErrorCode(e.getErrorCode()) != SQLiteErrorCode.SQLITE_FULL) {
      return new StoreException("cannot " + what + " the spool: " + e.getMessage(), e);
    }
    share = 1;
    return new StoreException(
        "the spool or its disk is full, with "
            + size.get()
            + " readings queued. New readings are rejected until the readings store is back. Repair"
            + " the store, or raise spoolMaxMegabytes",
        e);
  }

  /**
   * Appends all readings, or none if it throws.
   *
   * @throws StoreException when the limit is reached or the disk fails
   */
  void append(List<Reading> readings) {
    transaction(
        "write to",
        () -> {
          // Prepared each time because the driver closes a statement that has failed.
          try (PreparedStatement insert = connection.prepareStatement(INSERT)) {
            for (Reading reading : readings) {
              bind(insert, reading);
              insert.executeUpdate();
            }
          }
          return true;
        });
    size.addAndGet(readings.size());
  }

  private static void bind(PreparedStatement insert, Reading reading) throws SQLException {
    insert.setString(1, reading.sensor().name());
    insert.setLong(2, reading.at().toEpochMilli());
    QuantityColumns.bind(insert, 3, reading);
    bind(insert, 3 + QuantityColumns.COUNT, reading.arrival());
  }

  private static void bind(PreparedStatement insert, int first, @Nullable Arrival arrival)
      throws SQLException {
    if (arrival == null) {
      for (int i = 0; i < 3; i++) {
        insert.setNull(first + i, Types.INTEGER);
      }
    } else {
      insert.setInt(first, arrival.delivery());
      insert.setBoolean(first + 1, arrival.again());
      insert.setBoolean(first + 2, arrival.uncertain());
    }
  }

  Batch oldest(int most) {
    return transaction(
        "read",
        () -> {
          try (PreparedStatement statement = connection.prepareStatement(OLDEST)) {
            statement.setInt(1, most);
            try (ResultSet rows = statement.executeQuery()) {
              return batch(rows);
            }
          }
        });
  }

  private static Batch batch(ResultSet rows) throws SQLException {
    List<Reading> readings = new ArrayList<>();
    long last = 0;
    while (rows.next()) {
      last = rows.getLong(1);
      readings.add(
          new Reading(
              new SensorId(rows.getString(2)),
              Instant.ofEpochMilli(rows.getLong(3)),
              QuantityColumns.values(rows, 4),
              arrival(rows, 4 + QuantityColumns.COUNT)));
    }
    return new Batch(last, readings);
  }

  private static @Nullable Arrival arrival(ResultSet row, int first) throws SQLException {
    int delivery = row.getInt(first);
    return row.wasNull()
        ? null
        : new Arrival(delivery, row.getBoolean(first + 1), row.getBoolean(first + 2));
  }

  void remove(Batch batch) {
    transaction(
        "clear",
        () -> {
          try (PreparedStatement delete =
              connection.prepareStatement("DELETE FROM waiting WHERE id <= ?")) {
            delete.setLong(1, batch.lastId());
            return delete.executeUpdate();
          }
        });
    size.addAndGet(-batch.readings().size());
  }

  /** Gives the space of a large file back, when it is empty and that costs nothing. */
  synchronized void shrink() {
    try {
      if (size() == 0 && number("PRAGMA page_count") * pageBytes > compactAboveBytes) {
        execute("VACUUM");
        execute("PRAGMA wal_checkpoint(TRUNCATE)");
      }
    } catch (SQLException e) {
      throw new StoreException("cannot shrink the spool: " + e.getMessage(), e);
    }
  }

  @Override
  public synchronized void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new StoreException("cannot close the spool", e);
    }
  }
}
