package tepidarium.importing;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import tepidarium.importing.SettingNames.Setting;
import tepidarium.reading.InvalidInput;

/**
 * Finds the delimiter, the header and the rows of a table in the first lines of a file. A row has a
 * time and at least one more cell that is a number or a marker of a missing value.
 */
final class TableFinder {
  private static final int MAX_RECORDS = 2_000;
  private static final int MAX_HEADER_RECORDS = 3;
  private static final List<Character> DELIMITERS = List.of(',', ';', '\t');
  static final DateTimeText TIME = new DateTimeText();

  private record Candidate(char delimiter, List<List<String>> records, List<Long> lines) {}

  private TableFinder() {}

  static CSVFormat format(char delimiter) {
    return CSVFormat.RFC4180
        .builder()
        .setDelimiter(delimiter)
        .setIgnoreEmptyLines(true)
        .setTrailingData(true)
        .setLenientEof(true)
        .get();
  }

  /**
   * Finds the table and adds the reasons to the guesses.
   *
   * @throws InvalidInput if the text has no table of readings
   */
  static LoggerTable find(String head, ImportOptions options, List<Guess> guesses) {
    Candidate best = null;
    int bestRows = 0;
    Character set = options.delimiter();
    List<Candidate> candidates =
        (set == null ? DELIMITERS : List.of(set)).stream().map(one -> parse(head, one)).toList();
    for (Candidate candidate : candidates) {
      int rows = (int) candidate.records().stream().filter(TableFinder::isRow).count();
      if (rows > bestRows) {
        best = candidate;
        bestRows = rows;
      }
    }
    if (best == null) {
      throw new InvalidInput(whyNoTable(candidates, options.names()));
    }
    guesses.add(
        new Guess(
            "delimiter",
            name(best.delimiter()),
            set == null
                ? "it splits " + bestRows + " of the first lines into a time and values"
                : options.names().setBy(Setting.DELIMITER)));
    return table(best, options, guesses);
  }

  private static String name(char delimiter) {
    return switch (delimiter) {
      case ',' -> "comma";
      case ';' -> "semicolon";
      case '\t' -> "tab";
      default -> String.valueOf(delimiter);
    };
  }

  private static Candidate parse(String head, char delimiter) {
    List<List<String>> records = new ArrayList<>();
    List<Long> lines = new ArrayList<>();
    try (CSVParser parser = CSVParser.parse(new StringReader(head), format(delimiter))) {
      long line = 1;
      for (CSVRecord record : parser) {
        records.add(record.toList());
        lines.add(line);
        line = parser.getCurrentLineNumber() + 1;
        if (records.size() == MAX_RECORDS) {
          break;
        }
      }
    } catch (IOException | UncheckedIOException e) {
      throw new InvalidInput("the file is not a table: " + e.getMessage(), e);
    }
    return new Candidate(delimiter, records, lines);
  }

  private static boolean isRow(List<String> cells) {
    int times = 0;
    int values = 0;
    for (String cell : cells) {
      if (isTime(cell)) {
        times++;
      } else if (isNumber(cell)) {
        values++;
      }
    }
    return times > 0 && values + times > 1 && values > 0;
  }

  static boolean isTime(String cell) {
    return TIME.read(cell) || Epoch.isPlausible(cell);
  }

  static boolean isNumber(String cell) {
    String text = cell.strip();
    int end = NumberText.end(text);
    return (end > 0 && text.length() - end <= 4) || NumberText.isMissing(text);
  }

  private static String whyNoTable(List<Candidate> candidates, SettingNames names) {
    boolean numbers = false;
    boolean times = false;
    for (Candidate candidate : candidates) {
      for (List<String> cells : candidate.records()) {
        numbers |= cells.stream().filter(cell -> NumberText.end(cell.strip()) > 0).count() > 1;
        times |= cells.stream().anyMatch(TableFinder::isTime);
      }
    }
    if (times) {
      return "no line has a time and a value that are divided by a comma, semicolon or tab. Set"
          + " the character between the cells with "
          + names.of(Setting.DELIMITER);
    }
    return numbers
        ? "no column holds a time. Readings without a time cannot be imported: export them again"
            + " with the date and time of each row"
        : "the file has no rows with values, at most a header. Export the readings again, with the"
            + " values";
  }

  private static LoggerTable table(Candidate found, ImportOptions options, List<Guess> guesses) {
    List<List<String>> records = found.records();
    int first = 0;
    while (!isRow(records.get(first))) {
      first++;
    }
    int width = width(records.subList(first, records.size()));
    while (!isRow(records.get(first)) || records.get(first).size() != width) {
      first++;
    }
    List<List<String>> rows =
        records.subList(first, records.size()).stream()
            .filter(cells -> cells.size() == width && isRow(cells))
            .toList();
    int start = headerStart(found, first, width, options);
    List<String> headers = headers(records.subList(start, first), width);
    long line = found.lines().get(start);
    guesses.add(
        new Guess(
            "header",
            start == first ? "none" : "line " + line,
            options.headerLine() != null
                ? options.names().setBy(Setting.HEADER_LINE)
                : start == first
                    ? "no line before the first values names the columns"
                    : "the last line before the first values, which are in line "
                        + found.lines().get(first)));
    return new LoggerTable(found.delimiter(), first, headers, records.subList(0, start), rows);
  }

  /**
   * The most frequent number of cells.
   *
   * @throws InvalidInput if more than a fifth of the rows have another number
   */
  private static int width(List<List<String>> records) {
    Map<Integer, Integer> counts = new HashMap<>();
    List<List<String>> rows = records.stream().filter(TableFinder::isRow).toList();
    rows.forEach(cells -> counts.merge(cells.size(), 1, Integer::sum));
    int width = 0;
    for (Map.Entry<Integer, Integer> each : counts.entrySet()) {
      int best = counts.getOrDefault(width, 0);
      width = each.getValue() > best ? each.getKey() : width;
    }
    int usual = counts.getOrDefault(width, 0);
    if (usual * 5 < rows.size() * 4) {
      throw new InvalidInput(
          "the rows have different numbers of cells ("
              + String.join(", ", counts.keySet().stream().sorted().map(String::valueOf).toList())
              + "), so the columns are mixed. If the file holds several tables, save each in a file"
              + " of its own; if numbers have a decimal comma, export with semicolons");
    }
    return width;
  }

  private static int trimmed(List<String> cells) {
    int size = cells.size();
    while (size > 0 && cells.get(size - 1).isBlank()) {
      size--;
    }
    return size;
  }

  private static int headerStart(Candidate found, int first, int width, ImportOptions options) {
    Integer headerLine = options.headerLine();
    if (headerLine != null) {
      int index = found.lines().indexOf((long) headerLine);
      if (index < 0 || index >= first) {
        throw new InvalidInput(
            options.names().of(Setting.HEADER_LINE, headerLine.toString())
                + " is not a line before the first values");
      }
      return index;
    }
    int start = first;
    while (start > 0 && first - start < MAX_HEADER_RECORDS) {
      if (!isHeader(found.records().get(start - 1), width)) {
        break;
      }
      start--;
    }
    return start;
  }

  /** A header has about as many texts as the rows have cells. */
  private static boolean isHeader(List<String> cells, int width) {
    int size = trimmed(cells);
    return size >= 2
        && size <= width + 1
        && size * 2 > width
        && cells.stream().noneMatch(TableFinder::isTime);
  }

  /** Joins the lines of the header: names in one, units in the next. */
  private static List<String> headers(List<List<String>> records, int width) {
    List<String> headers = new ArrayList<>();
    for (int i = 0; i < width; i++) {
      StringBuilder header = new StringBuilder();
      for (List<String> cells : records) {
        String cell = i < cells.size() ? cells.get(i).strip() : "";
        header.append(header.isEmpty() || cell.isEmpty() ? "" : " ").append(cell);
      }
      headers.add(header.toString());
    }
    return headers;
  }
}
