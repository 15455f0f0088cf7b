package tepidarium.sqlite;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sqlite.ProgressHandler;

/** Copies of a file that is being written to. */
class SqliteCopyTest {
  private static final Schema SPOOL = new Schema("db/spool", 4);
  private static final long ROWS = 5_000;

  @TempDir private Path folder;
  private SqliteFile file;
  private Path copy;

  @BeforeEach
  void fill() throws SQLException {
    file = SqliteFile.open(folder.resolve("data.db"), SPOOL);
    copy = folder.resolve("copy.db");
    try (Connection connection = file.writer();
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE entry (number INTEGER PRIMARY KEY, words TEXT)");
      statement.execute(
          "INSERT INTO entry WITH RECURSIVE n(value) AS (SELECT 1 UNION ALL SELECT value + 1 FROM n"
              + " LIMIT "
              + ROWS
              + ") SELECT value, hex(randomblob(100)) FROM n");
    }
  }

  private List<Long> copied() {
    return SqliteCopy.row(copy, "entry", "count(*), max(number)");
  }

  @Test
  void writesThatCommitDuringACopyAreNotDelayedAndNotInIt() throws SQLException {
    AtomicLong written = new AtomicLong();
    try (Connection writer = file.writer();
        Statement insert = writer.createStatement();
        Connection source = SqliteFile.plainReader(file.path())) {
      insert.execute("PRAGMA busy_timeout = 0");
      // Runs in the middle of the copy, between its steps.
      ProgressHandler.setHandler(
          source,
          2_000,
          new ProgressHandler() {
            @Override
            protected int progress() throws SQLException {
              insert.execute(
                  "INSERT INTO entry VALUES (" + (ROWS + written.incrementAndGet()) + ", 'new')");
              return 0;
            }
          });
      SqliteCopy.copy(source, copy);
    }
    assertTrue(written.get() > 0, "nothing was written during the copy");
    SqliteCopy.check(copy);
    assertEquals(List.of(ROWS, ROWS), copied());
    assertEquals(4, SqliteCopy.version(copy));
  }

  @Test
  void whatStandsOnlyInTheWriteAheadLogIsCopied() throws SQLException {
    try (Connection writer = file.writer();
        Statement insert = writer.createStatement()) {
      insert.execute("PRAGMA wal_autocheckpoint = 0");
      insert.execute("INSERT INTO entry VALUES (99999, 'newest')");
      SqliteCopy.copy(file.path(), copy);
    }
    assertEquals(List.of(ROWS + 1, 99_999L), copied());
  }

  @Test
  void anOlderCopyIsReplacedAndNoJournalStays() throws IOException {
    Files.writeString(copy, "older");
    SqliteCopy.copy(file.path(), copy);
    assertEquals(List.of(ROWS, ROWS), copied());
    assertEquals(List.of(), SqliteCopy.row(copy, "unknown", "count(*)"));
    try (var files = Files.list(folder)) {
      assertEquals(List.of(copy, file.path()), files.sorted().toList());
    }
  }

  @Test
  void aFailureNamesTheFileAndTheReason() throws IOException {
    Path nowhere = folder.resolve("nowhere/copy.db");
    String words =
        assertThrows(IllegalStateException.class, () -> SqliteCopy.copy(file.path(), nowhere))
            .getMessage();
    assertTrue(words.startsWith("cannot copy " + file.path() + " to " + nowhere), words);
    assertFalse(words.contains("null"), words);
    Files.writeString(copy, "this is a letter, not a database. ".repeat(500));
    assertThrows(UnusableFile.Damaged.class, () -> SqliteCopy.check(copy));
  }
}
