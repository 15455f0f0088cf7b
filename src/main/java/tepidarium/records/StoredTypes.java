package tepidarium.records;

import static tepidarium.records.Columns.ofKey;

import java.lang.reflect.Type;
import java.sql.Types;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.argument.ArgumentFactory;
import org.jdbi.v3.core.argument.NullArgument;
import org.jdbi.v3.core.config.ConfigRegistry;
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
    jdbi.registerArgument(new Stored());
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

  /**
   * Writes the values. Preparable, because Jdbi asks such factories first and has one of its own
   * for instants, which writes timestamps.
   */
  private static final class Stored implements ArgumentFactory.Preparable {
    @Override
    public Optional<Function<@Nullable Object, Argument>> prepare(
        Type type, ConfigRegistry config) {
      if (type == Instant.class) {
        return Optional.of(
            value -> millis(value == null ? null : ((Instant) value).toEpochMilli()));
      }
      if (type == Duration.class) {
        return Optional.of(value -> millis(value == null ? null : ((Duration) value).toMillis()));
      }
      if (type instanceof Class<?> known && Enum.class.isAssignableFrom(known)) {
        return Optional.of(value -> text(value == null ? null : Columns.key((Enum<?>) value)));
      }
      return type == UUID.class
          ? Optional.of(value -> text(value == null ? null : value.toString()))
          : Optional.empty();
    }
  }

  private static Argument millis(@Nullable Long ms) {
    return ms == null
        ? new NullArgument(Types.BIGINT)
        : (position, statement, context) -> statement.setLong(position, ms);
  }

  private static Argument text(@Nullable String text) {
    return text == null
        ? new NullArgument(Types.VARCHAR)
        : (position, statement, context) -> statement.setString(position, text);
  }
}
