package tepidarium.faults;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/** Compares the readings that a sensor printed with those that are in the embedded store. */
final class DeskReadings {
  private DeskReadings() {}

  /**
   * A reading.
   *
   * @param second since 1970
   * @param temperature in °C with two decimals; "-" where it is missing
   */
  record Reading(long second, String temperature) {
    private boolean matches(Reading other, long toleranceSeconds) {
      return temperature.equals(other.temperature)
          && Math.abs(second - other.second) <= toleranceSeconds;
    }
  }

  /** All stored readings, in the order of their times. */
  static List<Reading> storedIn(Path data) {
    String sql =
        "SELECT at_ms / 1000, CASE WHEN temperature IS NULL THEN '-'"
            + " ELSE printf('%.2f', temperature / 10000.0) END FROM reading ORDER BY at_ms";
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + data + "/readings.db");
        Statement statement = file.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<Reading> stored = new ArrayList<>();
      while (rows.next()) {
        stored.add(new Reading(rows.getLong(1), rows.getString(2)));
      }
      return stored;
    } catch (SQLException e) {
      throw new IllegalStateException("cannot read the store in " + data, e);
    }
  }

  /**
   * The stored readings without those that were printed; each printed one takes one away.
   *
   * @param missing receives the printed readings that are not stored
   */
  static List<Reading> more(
      List<Reading> stored, List<Reading> printed, long toleranceSeconds, List<Reading> missing) {
    List<Reading> rest = new ArrayList<>(stored);
    for (Reading one : printed) {
      Reading found =
          rest.stream().filter(o -> o.matches(one, toleranceSeconds)).findFirst().orElse(null);
      if (found == null) {
        missing.add(one);
      } else {
        rest.remove(found);
      }
    }
    return rest;
  }
}
