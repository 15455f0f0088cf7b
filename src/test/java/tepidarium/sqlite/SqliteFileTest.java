package tepidarium.sqlite;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Opens files that are new, older, later, damaged, or from another program. */
class SqliteFileTest {
  private static final Schema SPOOL = new Schema("db/spool", 4);

  @TempDir private Path folder;

  @Test
  void createsAFileAndOpensItAgain() {
    Path file = folder.resolve("new.db");
    assertEquals(0, SqliteFile.version(file));
    SqliteFile.open(file, SPOOL);
    SqliteFile.open(file, SPOOL);
    assertEquals(4, SqliteFile.version(file));
  }

  @Test
  void refusesALaterSchemaAndLeavesTheFileAsItIs() throws SQLException, IOException {
    Path file = folder.resolve("later.db");
    SqliteFile.open(file, SPOOL);
    execute(
        file,
        "INSERT INTO flyway_schema_history SELECT 9, '7', 'later', 'SQL', 'V7__later.sql', 1, '',"
            + " 0, 1, 1");
    byte[] before = Files.readAllBytes(file);
    String words =
        assertThrows(UnusableFile.NewerVersion.class, () -> SqliteFile.open(file, SPOOL))
            .getMessage();
    assertTrue(words.startsWith(file + " was written by a later version of Tepidarium"), words);
    assertTrue(words.contains("schema version 7"), words);
    assertTrue(words.endsWith("up to 4"), words);
    assertArrayEquals(before, Files.readAllBytes(file));
  }

  private static void migrateToFirst(Path file, String scripts) {
    Flyway.configure()
        .dataSource("jdbc:sqlite:" + file, null, null)
        .locations("classpath:" + scripts)
        .target("1")
        .load()
        .migrate();
  }

  /** The second of three scripts works, the third one fails. */
  @Test
  void aFailedMigrationLeavesTheFileAsItWas() {
    Path file = folder.resolve("failing.db");
    migrateToFirst(file, "db/failing");
    String words =
        assertThrows(
                IllegalStateException.class,
                () -> SqliteFile.open(file, new Schema("db/failing", 3)))
            .getMessage();
    assertTrue(words.startsWith(file + " cannot be migrated to schema version 3: "), words);
    assertTrue(words.contains("no such table: nowhere"), words);
    assertTrue(words.contains("It is unchanged.") && words.contains("used before"), words);
    assertEquals(1, words.lines().count(), words);
    SqliteFile.open(file, new Schema("db/failing", 1));
    assertEquals(1, SqliteFile.version(file));
    assertEquals(
        List.of(1L, 1L), SqliteCopy.row(file, "entry", "count(*), sum(words = 'precious')"));
  }

  /** The child process of the next test. */
  static final class Migrating {
    private Migrating() {}

    public static void main(String[] arguments) {
      SqliteFile.open(Path.of(arguments[0]), new Schema("db/slow", 2));
    }
  }

  /** The class path of this test, also where a launcher loads the tests by a class loader. */
  private static String classPath() {
    return SqliteFileTest.class.getClassLoader() instanceof URLClassLoader loader
        ? Arrays.stream(loader.getURLs()).map(URL::getPath).collect(Collectors.joining(":"))
        : System.getProperty("java.class.path");
  }

  @Test
  void aKillInTheMiddleOfAMigrationLeavesTheFileAsItWas() throws IOException {
    Path file = folder.resolve("slow.db");
    migrateToFirst(file, "db/slow");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                classPath(),
                Migrating.class.getName(),
                file.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("output").toFile())
            .start();
    Path log = folder.resolve("slow.db-wal");
    try {
      await("the migration writes")
          .atMost(Duration.ofSeconds(60))
          .until(() -> Files.exists(log) && Files.size(log) > 4 << 20);
      assertTrue(process.isAlive(), () -> "it ended early: " + file);
    } finally {
      process.destroyForcibly().onExit().join();
    }
    SqliteFile.open(file, new Schema("db/slow", 1));
    assertEquals(1, SqliteFile.version(file));
    assertEquals(
        List.of(1L, 1L), SqliteCopy.row(file, "entry", "count(*), sum(words = 'precious')"));
  }

  @Test
  void namesATruncatedFile() throws IOException {
    Path file = folder.resolve("half.db");
    SqliteFile.open(file, SPOOL);
    byte[] whole = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(whole, whole.length / 2));
    assertDamaged(file);
  }

  @Test
  void namesAFileWithGarbageInItsMiddle() throws IOException {
    Path file = folder.resolve("garbage.db");
    SqliteFile.open(file, SPOOL);
    byte[] content = Files.readAllBytes(file);
    Arrays.fill(content, 4_096, content.length, (byte) 0x5A);
    Files.write(file, content);
    assertDamaged(file);
  }

  @Test
  void namesAFileThatIsNoDatabase() throws IOException {
    Path file = folder.resolve("text.db");
    Files.writeString(file, "this is a letter, not a database. ".repeat(500));
    assertDamaged(file);
  }

  @Test
  void refusesTheTablesOfAnotherProgram() throws SQLException {
    Path file = folder.resolve("other.db");
    execute(file, "CREATE TABLE letter (words TEXT)");
    assertDamaged(file);
  }

  private static void assertDamaged(Path file) {
    String words =
        assertThrows(UnusableFile.Damaged.class, () -> SqliteFile.open(file, SPOOL)).getMessage();
    assertTrue(words.startsWith(file + " is damaged: "), words);
    assertTrue(!words.contains("null") && words.lines().count() == 1, words);
  }

  private static void execute(Path file, String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
