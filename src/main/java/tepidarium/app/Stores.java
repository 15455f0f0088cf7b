package tepidarium.app;

import java.time.Clock;
import tepidarium.records.Database;
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

  /** Opens every store. The running parts close them in the reverse order. */
  static Stores open(Config config, DataParts parts, Clock clock, RunningParts running) {
    // First, because a missing copy of the records stops the start before anything is migrated.
    Database records = running.add(parts.open(DataPart.RECORDS, SqliteRecords::open));
    return new Stores(
        running.add(Storage.open(config, parts, clock)),
        records,
        running.add(parts.open(DataPart.ROLLUPS, SqliteRollups::open)));
  }
}
