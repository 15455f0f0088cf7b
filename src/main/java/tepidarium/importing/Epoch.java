package tepidarium.importing;

import java.time.Instant;
import tepidarium.reading.Reading;

/** Reads times that are counted since 1970-01-01T00:00Z, and guesses their unit from their size. */
final class Epoch {
  private static final long EARLIEST_S = Reading.EARLIEST.getEpochSecond();
  private static final long LATEST_S = Instant.parse("2100-01-01T00:00:00Z").getEpochSecond();

  private Epoch() {}

  /** Whether the cell is such a time, in seconds or milliseconds, from 2010 to 2100. */
  static boolean isPlausible(String cell) {
    return isSeconds(cell) || isMillis(cell);
  }

  static boolean isSeconds(String cell) {
    double value = value(cell);
    return value >= EARLIEST_S && value < LATEST_S;
  }

  static boolean isMillis(String cell) {
    double value = value(cell);
    return value >= EARLIEST_S * 1e3 && value < LATEST_S * 1e3;
  }

  private static double value(String cell) {
    int length = cell.length();
    return length < 10 || length > 17 ? Double.NaN : NumberText.parse(cell.strip(), '.');
  }

  /** The time in milliseconds; negative if the cell is not a number. */
  static long millis(String cell, long perSecond) {
    double value = NumberText.parse(cell.strip(), '.');
    return Double.isNaN(value) ? -1 : Math.round(value * 1000 / perSecond);
  }
}
