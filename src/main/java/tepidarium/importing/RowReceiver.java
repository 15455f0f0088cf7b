package tepidarium.importing;

import tepidarium.reading.Reading;

/** Receives the content of a file, row by row. */
public interface RowReceiver {
  /**
   * Takes a reading.
   *
   * @param line number of the first line of its row, from 1
   * @return whether to read on; false ends the reading of the file
   */
  boolean reading(long line, Reading reading);

  /**
   * Takes a row of which at least one cell could not be used. Its other values are received as a
   * reading.
   *
   * @param reason what is wrong and what to do
   * @param text the row, as the file has it
   */
  void bad(long line, String reason, String text);

  /** Takes a row without any value, such as a row of markers for missing values. */
  void empty(long line);
}
