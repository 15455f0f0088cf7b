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
import tepidarium.importing.ImportTexts.Setting;
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
    ImportTexts texts = options.texts();
    Candidate best = null;
    int bestRows = 0;
    Character set = options.delimiter();
    List<Candidate> candidates =
        (set == null ? DELIMITERS : List.of(set))
            .stream().map(one -> parse(head, one, texts)).toList();
    for (Candidate candidate : candidates) {
      int rows = (int) candidate.records().stream().filter(TableFinder::isRow).count();
      if (rows > bestRows) {
        best = candidate;
        bestRows = rows;
      }
    }
    if (best == null) {
      throw whyNoTable(candidates, texts);
    }
    guesses.add(
        texts.guess(
            "delimiter",
            name(best.delimiter(), texts),
            set == null ? texts.say("why.delimiter", bestRows) : texts.setBy(Setting.DELIMITER)));
    return table(best, options, guesses);
  }

  private static String name(char delimiter, ImportTexts texts) {
    return switch (delimiter) {
      case ',' -> texts.say("comma");
      case ';' -> texts.say("semicolon");
      case '\t' -> texts.say("tab");
      default -> String.valueOf(delimiter);
    };
  }

  private static Candidate parse(String head, char delimiter, ImportTexts texts) {
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
      throw texts.refusal("no-table", String.valueOf(e.getMessage()));
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

  private static InvalidInput whyNoTable(List<Candidate> candidates, ImportTexts texts) {
    boolean numbers = false;
    boolean times = false;
    for (Candidate candidate : candidates) {
      for (List<String> cells : candidate.records()) {
        numbers |= cells.stream().filter(cell -> NumberText.end(cell.strip()) > 0).count() > 1;
        times |= cells.stream().anyMatch(TableFinder::isTime);
      }
    }
    if (times) {
      return texts.refusal("no-delimiter", texts.of(Setting.DELIMITER));
    }
    return texts.refusal(numbers ? "no-time" : "no-rows");
  }

  private static LoggerTable table(Candidate found, ImportOptions options, List<Guess> guesses) {
    List<List<String>> records = found.records();
    int first = 0;
    while (!isRow(records.get(first))) {
      first++;
    }
    ImportTexts texts = options.texts();
    int width = width(records.subList(first, records.size()), texts);
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
        texts.guess(
            "header",
            start == first ? texts.say("none") : texts.say("line", line),
            options.headerLine() != null
                ? texts.setBy(Setting.HEADER_LINE)
                : start == first
                    ? texts.say("why.no-header")
                    : texts.say("why.header", found.lines().get(first))));
    return new LoggerTable(found.delimiter(), first, headers, records.subList(0, start), rows);
  }

  /**
   * The most frequent number of cells.
   *
   * @throws InvalidInput if more than a fifth of the rows have another number
   */
  private static int width(List<List<String>> records, ImportTexts texts) {
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
      throw texts.refusal(
          "widths",
          String.join(", ", counts.keySet().stream().sorted().map(String::valueOf).toList()));
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
        throw options
            .texts()
            .refusal("header-line", options.texts().of(Setting.HEADER_LINE, headerLine.toString()));
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
