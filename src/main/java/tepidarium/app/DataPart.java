package tepidarium.app;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.series.spool.Spool;
import tepidarium.series.sqlite.SqliteReadings;

/** A part of the data folder that can be missing, damaged, or of a later version. */
enum DataPart {
  READINGS("readings.db", "every reading", SqliteReadings.SCHEMA.version()),
  RECORDS(
      "records.db",
      "the containers, placements, openings, alerts and tallies",
      SqliteRecords.SCHEMA.version()),
  ROLLUPS("ledger.db", "the hourly sums", SqliteRollups.SCHEMA.version()),
  SPOOL("spool.db", "readings that waited for a server of their own", Spool.SCHEMA_VERSION),
  BROKER("broker", "messages that the embedded broker had not delivered yet", 0);

  private final String fileName;
  private final String content;
  private final int schemaVersion;

  DataPart(String fileName, String content, int schemaVersion) {
    this.fileName = fileName;
    this.content = content;
    this.schemaVersion = schemaVersion;
  }

  String fileName() {
    return fileName;
  }

  /** Returns the file name without its extension, with which the names of its copies start. */
  String stem() {
    return fileName.replaceFirst("\\.db$", "");
  }

  /** Returns the newest schema version that this program reads; 0 for a part without a schema. */
  int schemaVersion() {
    return schemaVersion;
  }

  /** Describes the content of the part, for messages to the user. */
  String content() {
    return content;
  }

  static Optional<DataPart> of(String fileName) {
    return Arrays.stream(values()).filter(part -> part.fileName.equals(fileName)).findFirst();
  }

  static String names() {
    return Arrays.stream(values()).map(DataPart::fileName).collect(Collectors.joining(", "));
  }
}
