package tepidarium.records.postgres;

import java.util.function.Consumer;

/**
 * How a service shares the database with others.
 *
 * @param owner name of the service, the same after a restart and of no other service
 * @param waits whether it waits for the database while another service owns it, and must end when
 *     it no longer owns it. If not, the start ends with the reason, and a service that cannot reach
 *     the database goes on.
 * @param lost called once, with the reason, when a service that waits has lost the database
 */
public record Tenancy(String owner, boolean waits, Consumer<String> lost) {
  /** For a service that shares its database with no other. */
  public static Tenancy alone(String owner) {
    return new Tenancy(owner, false, reason -> {});
  }
}
