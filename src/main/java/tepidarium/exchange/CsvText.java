package tepidarium.exchange;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Reads and writes CSV (RFC 4180): commas, quotes where needed, a header. Writes an apostrophe in
 * front of a text that a spreadsheet would run as a formula, as OWASP recommends against CSV
 * injection. Removes the apostrophe when reading.
 */
final class CsvText {
  private static final String RISKY = "=+-@\t\r'";
  private static final Pattern NUMBER = Pattern.compile("-?\\d+(\\.\\d+)?(E-?\\d+)?");
  private static final String BYTE_ORDER_MARK = "\uFEFF";

  /** The most rows of a table that are read. */
  private static final int MAX_ROWS = 100_000;

  private CsvText() {}

  static String write(List<String> header, List<List<@Nullable String>> rows) {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      printer.printRecord(header);
      for (List<@Nullable String> row : rows) {
        printer.printRecord(row.stream().map(CsvText::escaped));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static String escaped(@Nullable String cell) {
    if (cell == null || cell.isEmpty() || NUMBER.matcher(cell).matches()) {
      return cell == null ? "" : cell;
    }
    return RISKY.indexOf(cell.charAt(0)) < 0 ? cell : "'" + cell;
  }

  private static String unescaped(String cell) {
    return cell.startsWith("'") ? cell.substring(1) : cell;
  }

  /**
   * Reads a table row by row, so that only one row is in memory.
   *
   * @param problems gets each line that is no row, and the first line that ends the reading: one
   *     that is not CSV, an unknown or repeated column, or the line after 100,000 rows
   * @param taker takes each other row
   */
  static void read(String text, List<String> header, Problems problems, Consumer<Row> taker) {
    String plain = text.startsWith(BYTE_ORDER_MARK) ? text.substring(1) : text;
    CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
    try (CSVParser parser = CSVParser.parse(new StringReader(plain), format)) {
      rows(parser, header, problems, taker);
    } catch (IOException | UncheckedIOException e) {
      problems.add(
          1, new InvalidInput("the text is not CSV: " + e.getMessage(), InputRule.NOT_CSV.with()));
    }
  }

  private static void rows(
      CSVParser parser, List<String> header, Problems problems, Consumer<Row> taker) {
    Iterator<CSVRecord> records = parser.iterator();
    if (!records.hasNext()) {
      problems.add(
          1,
          new InvalidInput(
              "the first line must be " + String.join(",", header),
              InputRule.NO_HEADER.with(header)));
      return;
    }
    List<String> columns = records.next().toList();
    try {
      checkHeader(columns, header);
    } catch (InvalidInput e) {
      problems.add(1, e);
      return;
    }
    for (int rows = 0; ; rows++) {
      long line = parser.getCurrentLineNumber() + 1;
      if (!records.hasNext()) {
        return;
      }
      if (rows == MAX_ROWS) {
        problems.add(
            line,
            new InvalidInput(
                "has more than the " + MAX_ROWS + " rows that are accepted",
                InputRule.TOO_MANY_ROWS.with(MAX_ROWS)));
        return;
      }
      CSVRecord record = records.next();
      if (record.size() != columns.size()) {
        problems.add(
            line,
            new InvalidInput(
                "has " + record.size() + " cells, but the header has " + columns.size(),
                InputRule.CELLS.with(record.size(), columns.size())));
      } else {
        taker.accept(new Row(line, cells(columns, record)));
      }
    }
  }

  private static void checkHeader(List<String> columns, List<String> header) {
    for (String column : columns) {
      if (!header.contains(column)) {
        throw new InvalidInput(
            "unknown column \"" + column + "\"; valid columns: " + String.join(",", header),
            InputRule.UNKNOWN_COLUMN.with(column, header));
      }
    }
    if (columns.stream().distinct().count() != columns.size()) {
      throw new InvalidInput("the header names a column twice", InputRule.COLUMN_TWICE.with());
    }
  }

  private static Map<String, String> cells(List<String> columns, CSVRecord record) {
    Map<String, String> cells = new HashMap<>();
    for (int i = 0; i < columns.size(); i++) {
      String cell = unescaped(record.get(i));
      if (!cell.isBlank()) {
        cells.put(columns.get(i), cell);
      }
    }
    return cells;
  }
}
