package tepidarium.records.postgres;

import java.lang.reflect.Type;
import java.sql.Types;
import java.util.Optional;
import java.util.function.Function;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.argument.Argument;
import org.jdbi.v3.core.argument.ArgumentFactory;
import org.jdbi.v3.core.argument.NullArgument;
import org.jdbi.v3.core.config.ConfigRegistry;
import org.jspecify.annotations.Nullable;

/**
 * Registers with Jdbi how text is stored in PostgreSQL. It takes no character U+0000, which a
 * payload of a sensor may contain; U+FFFD (replacement character) is stored in its place.
 */
final class PostgresText implements ArgumentFactory.Preparable {

  static void register(Jdbi jdbi) {
    jdbi.registerArgument(new PostgresText());
  }

  @Override
  public Optional<Function<@Nullable Object, Argument>> prepare(Type type, ConfigRegistry config) {
    return type == String.class ? Optional.of(PostgresText::argument) : Optional.empty();
  }

  private static Argument argument(@Nullable Object value) {
    return value == null
        ? new NullArgument(Types.VARCHAR)
        : (position, statement, context) ->
            statement.setString(position, value.toString().replace('\0', '\uFFFD'));
  }
}
