package tepidarium.backup;

import java.util.Arrays;
import java.util.Optional;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.series.sqlite.SqliteReadings;

/**
 * A data file that a backup can contain, in the order of copying.
 *
 * <p>The hourly sums come after the readings. Before the service stores a late reading, it deletes
 * the sums of its hour; before it removes old readings, it stores their sums. Sums that are copied
 * later therefore never contradict the copied readings, and no removed reading lacks its sum.
 */
public enum BackupPart {
  RECORDS("records.db", SqliteRecords.SCHEMA.version()),
  READINGS("readings.db", SqliteReadings.SCHEMA.version()),
  ROLLUPS("ledger.db", SqliteRollups.SCHEMA.version());

  private final String fileName;
  private final int schemaVersion;

  BackupPart(String fileName, int schemaVersion) {
    this.fileName = fileName;
    this.schemaVersion = schemaVersion;
  }

  public String fileName() {
    return fileName;
  }

  /** Returns the newest schema version that this program reads. */
  int schemaVersion() {
    return schemaVersion;
  }

  static Optional<BackupPart> of(String fileName) {
    return Arrays.stream(values()).filter(part -> part.fileName.equals(fileName)).findFirst();
  }
}
