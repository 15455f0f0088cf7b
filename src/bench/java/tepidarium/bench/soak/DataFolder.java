package tepidarium.bench.soak;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.stream.Stream;

/** Measures the data folder of the running service, and reads its stores. */
record DataFolder(Path path) {
  private static final Duration GIVEN_UP_AFTER = Duration.ofHours(24);

  /** The readings in the store, and the time of the oldest. */
  record Rows(long count, long oldestMs) {}

  /** The size of a store with its write-ahead log, in bytes. */
  long sizeOf(String store) throws IOException {
    return size(path, store);
  }

  /** The size of a folder in the data folder, in bytes. */
  long sizeOfFolder(String name) throws IOException {
    return size(path.resolve(name), "");
  }

  /** Walks again if a temporary file of a backup vanishes meanwhile. */
  private static long size(Path folder, String prefix) throws IOException {
    while (true) {
      try (Stream<Path> files = Files.walk(folder)) {
        return files
            .filter(Files::isRegularFile)
            .filter(file -> file.getFileName().toString().startsWith(prefix))
            .mapToLong(file -> file.toFile().length())
            .sum();
      } catch (UncheckedIOException e) {
        if (!(e.getCause() instanceof NoSuchFileException)) {
          throw e;
        }
      }
    }
  }

  int backups() throws IOException {
    Path folder = path.resolve("backups");
    if (!Files.isDirectory(folder)) {
      return 0;
    }
    try (Stream<Path> files = Files.list(folder)) {
      return (int) files.filter(file -> file.toString().endsWith(".zip")).count();
    }
  }

  Rows rows() {
    return query(
        "readings.db",
        "SELECT count(*), min(at_ms) FROM reading",
        found -> new Rows(found.getLong(1), found.getLong(2)));
  }

  /** Whether a round of housekeeping has ended since an instant; it stores the time at its end. */
  boolean isHousekeepingDone(Instant since) {
    return query(
        "records.db",
        "SELECT count(*) FROM clock_seen WHERE seen_ms >= " + since.toEpochMilli(),
        found -> found.getInt(1) > 0);
  }

  /**
   * Whether no delivery waits that ought to be over: one for the mail server, which does not
   * answer, after a day; any other at once.
   */
  boolean areDeliveriesDone(Instant now) {
    String late =
        """
        SELECT count(*) FROM notice_delivery d JOIN notice n ON n.id = d.notice_id
        WHERE d.state = 'waiting' AND d.next_ms <= %d AND (d.notifier <> 'email' OR n.created_ms <= %d)
        """;
    return query(
        "records.db",
        late.formatted(now.toEpochMilli(), now.minus(GIVEN_UP_AFTER).toEpochMilli()),
        found -> found.getInt(1) == 0);
  }

  private interface Reader<T> {
    T read(ResultSet found) throws SQLException;
  }

  private <T> T query(String store, String sql, Reader<T> reader) {
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + path.resolve(store));
        Statement statement = file.createStatement();
        ResultSet found = statement.executeQuery(sql)) {
      found.next();
      return reader.read(found);
    } catch (SQLException e) {
      throw new IllegalStateException("cannot read " + store + " in " + path, e);
    }
  }

  /** Deletes a folder with everything in it. */
  static void delete(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted((a, b) -> b.compareTo(a)).toList()) {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
