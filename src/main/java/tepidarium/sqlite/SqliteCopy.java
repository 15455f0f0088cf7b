package tepidarium.sqlite;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.sqlite.SQLiteConfig;

/**
 * Copies an SQLite file while a service writes to it, and checks copies.
 *
 * <p>Copies with VACUUM INTO. It reads the file in one transaction, so the copy has the state of
 * one instant. In write-ahead mode, this transaction delays no writer. Unlike a copy page by page,
 * it reads every row, leaves out free pages, and does not start again when a writer changes a page.
 */
public final class SqliteCopy {
  private SqliteCopy() {}

  /**
   * Copies a file.
   *
   * @param target the copy; an existing file is deleted
   * @throws UnusableFile.Damaged when the file is damaged
   * @throws IllegalStateException when it cannot be copied for another reason, such as a full disk
   */
  public static void copy(Path source, Path target) {
    try {
      Files.deleteIfExists(target);
      try (Connection connection = SqliteFile.plainReader(source)) {
        copy(connection, target);
      }
    } catch (SQLException e) {
      if (SqliteFile.isDamage(e)) {
        throw SqliteFile.damaged(source, e);
      }
      throw failed(source, target, SqliteFile.message(e), e);
    } catch (IOException e) {
      throw failed(source, target, e.toString(), e);
    }
  }

  static void copy(Connection source, Path target) throws SQLException {
    try (PreparedStatement statement = source.prepareStatement("VACUUM INTO ?")) {
      statement.setString(1, target.toString());
      statement.execute();
    }
  }

  private static IllegalStateException failed(
      Path source, Path target, String reason, Exception cause) {
    return new IllegalStateException(
        "cannot copy "
            + source
            + " to "
            + target
            + ": "
            + reason
            + ". Is its disk writable and not full?",
        cause);
  }

  /**
   * Checks the structure of a copy that no service uses. Reads the whole file.
   *
   * @throws UnusableFile.Damaged when it is damaged
   */
  public static void check(Path copy) {
    try (Connection connection = readOnly(copy);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("PRAGMA quick_check(1)")) {
      String found = row.next() ? row.getString(1) : "no answer";
      if (!"ok".equals(found)) {
        throw new UnusableFile.Damaged(copy, found.lines().findFirst().orElse(found));
      }
    } catch (SQLException e) {
      throw SqliteFile.failed(copy, e);
    }
  }

  /**
   * Reads the schema version of a copy that no service uses, without changing the file.
   *
   * @throws UnusableFile.Damaged when it is not an SQLite file
   */
  public static int version(Path copy) {
    try (Connection connection = readOnly(copy)) {
      return SqliteFile.version(connection);
    } catch (SQLException e) {
      throw SqliteFile.failed(copy, e);
    }
  }

  /**
   * Reads one row of whole numbers from a copy. Returns an empty list if the copy has no such
   * table, because it has an older schema.
   *
   * @param columns SQL expressions; a result of null becomes 0
   */
  public static List<Long> row(Path copy, String table, String columns) {
    try (Connection connection = readOnly(copy);
        Statement statement = connection.createStatement()) {
      try (ResultSet found =
          statement.executeQuery(
              "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = '" + table + "'")) {
        if (!found.next()) {
          return List.of();
        }
      }
      try (ResultSet row = statement.executeQuery("SELECT " + columns + " FROM " + table)) {
        List<Long> numbers = new ArrayList<>();
        for (int i = 1; i <= row.getMetaData().getColumnCount(); i++) {
          numbers.add(row.getLong(i));
        }
        return List.copyOf(numbers);
      }
    } catch (SQLException e) {
      throw SqliteFile.failed(copy, e);
    }
  }

  private static Connection readOnly(Path file) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(true);
    return config.createConnection("jdbc:sqlite:" + file);
  }
}
