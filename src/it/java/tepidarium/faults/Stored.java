package tepidarium.faults;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;

/**
 * The readings that are in the embedded store or in PostgreSQL, by sensor and second, as any other
 * program finds them.
 *
 * @param rows how many there are; more than the seconds where one is there twice
 */
record Stored(Map<String, BitSet> seconds, long rows) {
  /** Asks PostgreSQL for all of them as one text. */
  static final String IN_POSTGRES =
      "SELECT string_agg(name || ' ' || at_ms / 1000, ',') FROM readings.reading"
          + " JOIN readings.sensor ON sensor.id = reading.sensor_id";

  /**
   * Reads the answer of PostgreSQL.
   *
   * @param answer to {@link #IN_POSTGRES}
   */
  static Stored of(String answer) {
    Map<String, BitSet> seconds = new HashMap<>();
    // No row gives the word null.
    String[] rows = answer.equals("null") ? new String[0] : answer.split(",");
    for (String row : rows) {
      int space = row.indexOf(' ');
      set(seconds, row.substring(0, space), Long.parseLong(row.substring(space + 1)));
    }
    return new Stored(seconds, rows.length);
  }

  private static void set(Map<String, BitSet> seconds, String sensor, long second) {
    int index = (int) (second - Load.FIRST_SECOND);
    seconds.computeIfAbsent(sensor, name -> new BitSet()).set(index);
  }

  static Stored in(Path data) {
    String sql =
        "SELECT name, (at_ms / 1000) FROM reading JOIN sensor ON sensor.id = reading.sensor_id";
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db");
        Statement statement = file.createStatement();
        ResultSet found = statement.executeQuery(sql)) {
      Map<String, BitSet> seconds = new HashMap<>();
      long rows = 0;
      while (found.next()) {
        rows++;
        set(seconds, found.getString(1), found.getLong(2));
      }
      return new Stored(seconds, rows);
    } catch (SQLException e) {
      throw new IllegalStateException("cannot read the store in " + data, e);
    }
  }

  /** How many readings are there more than once. */
  long repeated() {
    return rows - seconds.values().stream().mapToLong(BitSet::cardinality).sum();
  }
}
