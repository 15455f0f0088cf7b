package tepidarium.app;

import java.time.Clock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.records.Database;
import tepidarium.records.postgres.PostgresAddress;
import tepidarium.records.postgres.PostgresRecords;
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
  private static final Logger LOG = LoggerFactory.getLogger(Stores.class);

  /** Opens every store. The running parts close them in the reverse order. */
  static Stores open(Config config, DataParts parts, Clock clock, RunningParts running) {
    // First, because a missing copy of the records stops the start before anything is migrated.
    Database records = running.add(openRecords(config, parts));
    return new Stores(
        running.add(Storage.open(config, parts, clock)),
        records,
        running.add(parts.open(DataPart.ROLLUPS, SqliteRollups::open)));
  }

  private static Database openRecords(Config config, DataParts parts) {
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
    return PostgresRecords.open(postgres);
  }
}
