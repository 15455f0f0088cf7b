package tepidarium.records;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind;

/** Converts SQL columns to values and values to columns. */
final class Columns {
  private Columns() {}

  static Instant instant(ResultSet row, String column) throws SQLException {
    return Instant.ofEpochMilli(row.getLong(column));
  }

  static @Nullable Instant instantOrNull(ResultSet row, String column) throws SQLException {
    long ms = row.getLong(column);
    return row.wasNull() ? null : Instant.ofEpochMilli(ms);
  }

  static @Nullable Double doubleOrNull(ResultSet row, String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? null : value;
  }

  static @Nullable Integer intOrNull(ResultSet row, String column) throws SQLException {
    int value = row.getInt(column);
    return row.wasNull() ? null : value;
  }

  static @Nullable Long longOrNull(ResultSet row, String column) throws SQLException {
    long value = row.getLong(column);
    return row.wasNull() ? null : value;
  }

  static @Nullable Long ms(@Nullable Instant instant) {
    return instant == null ? null : instant.toEpochMilli();
  }

  static AlertKind kind(ResultSet row) throws SQLException {
    String key = row.getString("kind");
    return AlertKind.ofKey(key)
        .orElseThrow(() -> new IllegalStateException("unknown alert kind " + key));
  }

  static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  static <E extends Enum<E>> E ofKey(Class<E> type, String key) {
    return Enum.valueOf(type, key.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
