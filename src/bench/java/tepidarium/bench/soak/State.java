package tepidarium.bench.soak;

import java.time.LocalDate;
import java.util.Locale;

/**
 * One row of the table: the state of the service on one day.
 *
 * @param day number of days since the start
 * @param heapBytes used heap after a collection, with this driver
 * @param readingsBytes the readings store with its log
 * @param rollupBytes the hourly sums with their log
 * @param recordsBytes the records store with its log
 * @param brokerBytes the journal of the broker
 * @param backups number of automatic backups
 * @param backupBytes size of all backups
 * @param logLines lines of warnings in the log since the start
 * @param sent readings and broken messages that were sent, including repeated ones
 * @param rows readings in the store
 * @param expectedRows readings sent with a time from that of the oldest stored one on
 * @param alerts number of open alerts
 * @param waiting number of deliveries of notices that wait
 * @param givenUp number of stored deliveries that were given up
 * @param restartMs time of the last stop, backup and start
 */
record State(
    LocalDate date,
    int day,
    long heapBytes,
    long readingsBytes,
    long rollupBytes,
    long recordsBytes,
    long brokerBytes,
    int backups,
    long backupBytes,
    long logLines,
    long sent,
    long stored,
    long repeated,
    long rejected,
    long rows,
    long expectedRows,
    int alerts,
    long waiting,
    long givenUp,
    long restartMs) {
  static final String HEAD =
      """
      | day | heap, MB | readings, MB | hourly sums, MB | records, MB | broker, MB | backups | MB | warnings a day | sent | stored | repeated | rejected | in the store | alerts open | notices waiting | given up | upgrade, s |
      | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |""";

  String row() {
    return String.format(
        Locale.ROOT,
        "| %s | %.1f | %.1f | %.1f | %.1f | %.1f | %d | %.1f | %.0f | %,d | %,d | %,d | %,d | %,d | %d | %d | %d | %.1f |",
        date,
        mb(heapBytes),
        mb(readingsBytes),
        mb(rollupBytes),
        mb(recordsBytes),
        mb(brokerBytes),
        backups,
        mb(backupBytes),
        (double) logLines / day,
        sent,
        stored,
        repeated,
        rejected,
        rows,
        alerts,
        waiting,
        givenUp,
        restartMs / 1e3);
  }

  private static double mb(long bytes) {
    return bytes / 1e6;
  }
}
