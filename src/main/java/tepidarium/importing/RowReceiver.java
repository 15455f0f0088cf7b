package tepidarium.importing;

import tepidarium.reading.Reading;

/**
 * Receives the content of a file, row by row. Each method returns whether to read on; false ends
 * the reading of the file after the current row.
 */
public interface RowReceiver {
  /**
   * Takes a reading.
   *
   * @param line number of the first line of its row, from 1
   */
  boolean reading(long line, Reading reading);

  /**
   * Takes a row with at least one bad cell. The good values of the row arrive as a reading of their
   * own.
   *
   * @param reason the problem and its remedy, for the user
   * @param text the row, as the file has it
   */
  boolean bad(long line, String reason, String text);

  /** Takes a row without any value, such as a row of markers for missing values. */
  boolean empty(long line);
}
