package tepidarium.records.postgres;

import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * How a service shares the database with others.
 *
 * @param name name of the service, for messages. Each start makes a new owner of the database from
 *     it: two services with the same name do not take the database from each other.
 * @param waits whether it waits for the database while another service owns it, and must end when
 *     it no longer owns it. If not, the start ends with the reason, and a service that cannot reach
 *     the database goes on.
 * @param waiting called with the name of each service that it waits for; with null while the
 *     database does not answer
 * @param lost called once, with the reason, when a service that waits has lost the database
 */
public record Tenancy(
    String name, boolean waits, Consumer<@Nullable String> waiting, Consumer<String> lost) {
  /** For a service that shares its database with no other. */
  public static Tenancy alone(String name) {
    return new Tenancy(name, false, other -> {}, reason -> {});
  }
}
