package tepidarium.records;

import static tepidarium.records.Columns.ofKey;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.argument.ArgumentFactory;
import org.jdbi.v3.core.mapper.ColumnMapper;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.NotificationState;
import tepidarium.alert.notify.Trouble;
import tepidarium.container.ContainerId;
import tepidarium.reading.SensorId;

/**
 * Registers with Jdbi how values are stored: instants and durations in milliseconds, ids as text,
 * values of an enum by their name in lower case.
 */
public final class StoredTypes {
  private StoredTypes() {}

  public static void register(Jdbi jdbi) {
    ArgumentFactory arguments =
        (type, value, config) -> Optional.ofNullable(value).flatMap(StoredTypes::argument);
    jdbi.registerArgument(arguments);
    ColumnMapper<@Nullable Instant> instants =
        (row, column, context) -> {
          long ms = row.getLong(column);
          return row.wasNull() ? null : Instant.ofEpochMilli(ms);
        };
    jdbi.registerColumnMapper(Instant.class, instants);
    jdbi.registerColumnMapper(
        SensorId.class, (row, column, context) -> new SensorId(row.getString(column)));
    jdbi.registerColumnMapper(
        ContainerId.class, (row, column, context) -> new ContainerId(row.getString(column)));
    registerEnum(jdbi, NotificationState.Stage.class);
    registerEnum(jdbi, Trouble.Kind.class);
  }

  private static <E extends Enum<E>> void registerEnum(Jdbi jdbi, Class<E> type) {
    jdbi.registerColumnMapper(type, (row, column, context) -> ofKey(type, row.getString(column)));
  }

  private static Optional<Argument> argument(Object value) {
    if (value instanceof Instant instant) {
      return millis(instant.toEpochMilli());
    }
    if (value instanceof Duration duration) {
      return millis(duration.toMillis());
    }
    if (value instanceof Enum<?> constant) {
      return text(Columns.key(constant));
    }
    return value instanceof UUID id ? text(id.toString()) : Optional.empty();
  }

  private static Optional<Argument> millis(long ms) {
    return Optional.of((position, statement, context) -> statement.setLong(position, ms));
  }

  private static Optional<Argument> text(String text) {
    return Optional.of((position, statement, context) -> statement.setString(position, text));
  }
}
