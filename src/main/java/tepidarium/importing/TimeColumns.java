package tepidarium.importing;

import java.time.ZoneId;

/**
 * Where a row has its time and how it is written.
 *
 * @param kind how the time is written
 * @param first index of the column with the date and time, the date, or the number
 * @param second index of the column with the time of day; -1 if it is in the first
 * @param order order of day, month and year
 * @param zone zone of times without an offset of their own
 * @param newestFirst whether the rows go backwards in time
 */
record TimeColumns(
    Kind kind, int first, int second, DateOrder order, ZoneId zone, boolean newestFirst) {
  enum Kind {
    TEXT,
    EPOCH_SECONDS,
    EPOCH_MILLIS
  }
}
