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
 * The readings that are in the embedded store, by sensor and second, as any other program finds
 * them.
 *
 * @param rows how many there are; more than the seconds where one is there twice
 */
record Stored(Map<String, BitSet> seconds, long rows) {
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
        int index = (int) (found.getLong(2) - Load.FIRST_SECOND);
        seconds.computeIfAbsent(found.getString(1), name -> new BitSet()).set(index);
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
