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
 * @param folder what tells its data folder from others, the same at each start. Each start makes a
 *     new owner of the database: two services do not take the database from each other even with
 *     copies of one folder.
 * @param waits whether it waits for the database while another service owns it, and must end when
 *     it no longer owns it. If not, the start ends with the reason, and a service that cannot reach
 *     the database goes on.
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
