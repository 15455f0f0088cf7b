package tepidarium.importing;

import java.util.List;

/**
 * The table that was found in the first lines of a file.
 *
 * @param delimiter character between two cells
 * @param firstRow index of the first record with values, counted from the start of the file
 * @param headers one header for each column
 * @param preamble the records before the header
 * @param rows the first records with values
 */
record LoggerTable(
    char delimiter,
    int firstRow,
    List<String> headers,
    List<List<String>> preamble,
    List<List<String>> rows) {
  LoggerTable {
    headers = List.copyOf(headers);
    preamble = List.copyOf(preamble);
    rows = List.copyOf(rows);
  }

  int width() {
    return headers.size();
  }
}
