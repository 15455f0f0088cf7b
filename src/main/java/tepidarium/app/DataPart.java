package tepidarium.app;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** A part of the data folder that can be missing, damaged, or of a later version. */
enum DataPart {
  READINGS("readings.db", "every reading"),
  RECORDS("records.db", "the containers, placements, openings, alerts and tallies"),
  ROLLUPS("ledger.db", "the hourly sums"),
  SPOOL("spool.db", "readings that were not yet in InfluxDB"),
  BROKER("broker", "messages that the embedded broker had not delivered yet");

  private final String fileName;
  private final String content;

  DataPart(String fileName, String content) {
    this.fileName = fileName;
    this.content = content;
  }

  String fileName() {
    return fileName;
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
