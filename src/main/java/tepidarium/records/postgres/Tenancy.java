package tepidarium.records.postgres;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/**
 * How a service shares the database with others.
 *
 * @param machine name of the machine, for messages
 * @param folder identifies its data folder, the same at each start. Each start is nevertheless a
 *     new owner of the database, so two services with copies of one folder do not take it from each
 *     other.
 * @param waits whether the start waits while another service owns the database, and the service
 *     ends when it loses the database. If false, the start fails with the reason while another
 *     service owns the database, and a service that cannot reach the database keeps running.
 * @param reachesBroker whether the broker can be reached from here; asked while it waits
 * @param waiting called with the reason for which it waits, each time that it changes
 * @param clock the clock of this machine, compared with the database's if the service waits
 * @param lost called once, with the reason, when a service that waits has lost the database
 */
public record Tenancy(
    String machine,
    String folder,
    boolean waits,
    BooleanSupplier reachesBroker,
    Consumer<Waiting> waiting,
    Clock clock,
    Consumer<String> lost) {
  /** For a service that shares its database with no other. */
  public static Tenancy alone(String machine) {
    return new Tenancy(
        machine,
        machine,
        false,
        () -> true,
        other -> {},
        Clock.fixed(Instant.EPOCH, ZoneOffset.UTC),
        reason -> {});
  }
}
