package tepidarium.app;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** A part of the data folder that can be missing, damaged, or of a later version. */
enum DataPart {
  READINGS("readings.db", "every reading"),
  RECORDS("records.db", "the containers, placements, openings, alerts and tallies"),
  LEDGER("ledger.db", "the sums by hour"),
  SPOOL("spool.db", "readings that wait for InfluxDB"),
  BROKER("broker", "messages that wait in the embedded broker");

  private final String fileName;
  private final String content;

  DataPart(String fileName, String content) {
    this.fileName = fileName;
    this.content = content;
  }

  String fileName() {
    return fileName;
  }

  /** What is lost with the part, in words. */
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
