package tepidarium.app;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Clock;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.postgres.PostgresAddress;
import tepidarium.records.Database;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.records.postgres.Waiting;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.sqlite.SqliteRollups;

/**
 * The open stores of the service.
 *
 * @param storage the raw readings
 * @param records containers, alerts, germination and all other records
 * @param rollups the hourly sums
 */
record Stores(Storage storage, Database records, SqliteRollups rollups) {
  /** Exit status of a service that no longer owns its database. */
  private static final int LOST = 3;

  private static final Logger LOG = LoggerFactory.getLogger(Stores.class);

  /** Opens every store. The running parts close them in the reverse order. */
  static Stores open(Config config, OpenFolder folder, Clock clock, RunningParts running) {
    return open(config, folder, clock, running, () -> true, other -> {});
  }

  /**
   * The same.
   *
   * @param reachesBroker whether the broker can be reached; asked while this service waits
   * @param waiting called with the reason for which this service waits, each time that it changes
   */
  static Stores open(
      Config config,
      OpenFolder folder,
      Clock clock,
      RunningParts running,
      BooleanSupplier reachesBroker,
      Consumer<Waiting> waiting) {
    DataParts parts = folder.parts();
    // First, because a missing copy of the records stops the start before anything is migrated.
    Database records = running.add(openRecords(config, folder, clock, reachesBroker, waiting));
    Storage storage = running.add(Storage.open(config, parts, clock));
    SqliteRollups rollups = running.add(parts.open(DataPart.ROLLUPS, SqliteRollups::open));
    if (records instanceof PostgresRecords shared && config.keeping().readingsServer() != null) {
      // Another service with the same databases may have stored readings since.
      rollups.follow(shared.epoch());
    }
    return new Stores(storage, records, rollups);
  }

  private static Database openRecords(
      Config config,
      OpenFolder folder,
      Clock clock,
      BooleanSupplier reachesBroker,
      Consumer<Waiting> waiting) {
    DataParts parts = folder.parts();
    PostgresAddress postgres = config.keeping().records();
    if (postgres == null) {
      return parts.open(DataPart.RECORDS, SqliteRecords::open);
    }
    if (parts.exists(DataPart.RECORDS)) {
      LOG.warn(
          "{} is in the data folder, but recordsUrl is set: the records of the database {} are"
              + " used, and those of the file are not",
          DataPart.RECORDS.fileName(),
          postgres);
    }
    boolean standby = config.keeping().standby();
    return PostgresRecords.open(
        postgres,
        new Tenancy(
            machine(folder),
            folder.clientId(),
            standby,
            reachesBroker,
            waiting,
            clock,
            Stores::endAtOnce));
  }

  /** The name of this machine, by which other services name this one; else its client id. */
  static String machine(OpenFolder folder) {
    try {
      return InetAddress.getLocalHost().getHostName();
    } catch (UnknownHostException e) {
      return folder.clientId();
    }
  }

  /**
   * Ends the process at once, because another service has taken over: this one may evaluate, store
   * or send nothing more. An orderly stop would send the waiting notices, and could take too long.
   */
  private static void endAtOnce(String reason) {
    System.err.println("tepidarium: " + reason + ". This service ends and may be started again.");
    Runtime.getRuntime().halt(LOST);
  }
}
