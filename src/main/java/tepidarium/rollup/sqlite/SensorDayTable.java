package tepidarium.rollup.sqlite;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import tepidarium.fault.DaySearch;
import tepidarium.fault.SensorDay;
import tepidarium.reading.SensorId;
import tepidarium.rollup.SensorDayStore;
import tepidarium.sqlite.ReaderPool;

/**
 * Stores the fault searches of sensors in the file of the hourly rollups. A day that was searched
 * by other rules than {@link DaySearch#RULES} is treated as missing.
 */
final class SensorDayTable implements SensorDayStore {
  /** Runs a change on the write connection and commits it. */
  interface Transaction {
    void run(Change change);
  }

  /** A change of the file. */
  interface Change {
    void apply(Connection writer) throws SQLException;
  }

  private final ReaderPool readers;
  private final Transaction transaction;

  SensorDayTable(ReaderPool readers, Transaction transaction) {
    this.readers = readers;
    this.transaction = transaction;
  }

  @Override
  public List<SensorDay> read(SensorId sensor, long firstDay, long lastDay) {
    String sql =
        "SELECT day, content FROM sensor_day WHERE sensor = ? AND day >= ? AND day <= ?"
            + " AND rules = ? ORDER BY day";
    return readers.with(
        connection -> {
          try (PreparedStatement statement = connection.prepareStatement(sql)) {
            statement.setString(1, sensor.name());
            statement.setLong(2, firstDay);
            statement.setLong(3, lastDay);
            statement.setInt(4, DaySearch.RULES);
            List<SensorDay> days = new ArrayList<>();
            try (ResultSet row = statement.executeQuery()) {
              while (row.next()) {
                days.add(SensorDayBytes.read(sensor, row.getLong(1), row.getBytes(2)));
              }
            }
            return days;
          }
        });
  }

  @Override
  public void put(List<SensorDay> days) {
    transaction.run(
        writer -> {
          try (PreparedStatement statement =
              writer.prepareStatement(
                  "INSERT OR REPLACE INTO sensor_day (sensor, day, rules, content)"
                      + " VALUES (?, ?, ?, ?)")) {
            for (SensorDay day : days) {
              statement.setString(1, day.sensor().name());
              statement.setLong(2, day.day());
              statement.setInt(3, DaySearch.RULES);
              statement.setBytes(4, SensorDayBytes.of(day));
              statement.addBatch();
            }
            statement.executeBatch();
          }
        });
  }

  @Override
  public void delete(SensorId sensor, long firstDay, long lastDay) {
    transaction.run(
        writer -> {
          try (PreparedStatement statement =
              writer.prepareStatement(
                  "DELETE FROM sensor_day WHERE sensor = ? AND day >= ? AND day <= ?")) {
            statement.setString(1, sensor.name());
            statement.setLong(2, firstDay);
            statement.setLong(3, lastDay);
            statement.executeUpdate();
          }
        });
  }

  @Override
  public Set<Long> stored(SensorId sensor, long firstDay, long lastDay) {
    String sql =
        "SELECT day FROM sensor_day WHERE sensor = ? AND day >= ? AND day <= ? AND rules = ?";
    return readers.with(
        connection -> {
          try (PreparedStatement statement = connection.prepareStatement(sql)) {
            statement.setString(1, sensor.name());
            statement.setLong(2, firstDay);
            statement.setLong(3, lastDay);
            statement.setInt(4, DaySearch.RULES);
            Set<Long> days = new HashSet<>();
            try (ResultSet row = statement.executeQuery()) {
              while (row.next()) {
                days.add(row.getLong(1));
              }
            }
            return days;
          }
        });
  }

  @Override
  public OptionalLong lastDay() {
    return readers.with(
        connection -> {
          try (PreparedStatement statement =
                  connection.prepareStatement("SELECT max(day) FROM sensor_day");
              ResultSet row = statement.executeQuery()) {
            long day = row.next() ? row.getLong(1) : 0;
            return row.wasNull() ? OptionalLong.empty() : OptionalLong.of(day);
          }
        });
  }
}
