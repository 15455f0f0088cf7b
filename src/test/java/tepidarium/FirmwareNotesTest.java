package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Recalculates the tables of the firmware notes. */
class FirmwareNotesTest {
  private static final double SECONDS_A_DAY = 86_400;
  private static final double SECONDS_AN_HOUR = 3_600;
  private static final Pattern RUNTIME =
      Pattern.compile("(\\d+) mAh / ([\\d.]+) mAh a day = (\\d+) days");

  /**
   * A table of numbers.
   *
   * @param rows without the head and the sum
   * @param sum last cell of the row "sum"; empty if it has none
   */
  private record Table(List<String> head, List<List<String>> rows, String sum) {
    static Table of(List<String> lines) {
      List<List<String>> rows = new ArrayList<>();
      String sum = "";
      for (String line : lines.subList(2, lines.size())) {
        List<String> row = cells(line);
        if (row.get(0).equals("**sum**")) {
          sum = row.get(row.size() - 1);
        } else {
          rows.add(row);
        }
      }
      return new Table(cells(lines.get(0)), rows, sum);
    }

    private static List<String> cells(String line) {
      return Arrays.stream(line.substring(1, line.length() - 1).split("\\|"))
          .map(String::strip)
          .toList();
    }

    /** Value of a row by the formula of its table; the printed one where it has none. */
    double value(List<String> row) {
      return switch (head.get(head.size() - 1)) {
        case "mAh a day" -> product(row) / SECONDS_AN_HOUR;
        case "mW" -> product(row) / SECONDS_A_DAY;
        default -> Double.parseDouble(row.get(row.size() - 1));
      };
    }

    private static double product(List<String> row) {
      return row.subList(1, row.size() - 1).stream()
          .mapToDouble(Double::parseDouble)
          .reduce(1, (a, b) -> a * b);
    }
  }

  private static List<Table> tablesWithSums(Path page) throws IOException {
    List<Table> tables = new ArrayList<>();
    List<String> lines = new ArrayList<>();
    for (String line : Files.readString(page).concat("\n\n").split("\n", -1)) {
      if (line.startsWith("|")) {
        lines.add(line);
      } else if (!lines.isEmpty()) {
        tables.add(Table.of(lines));
        lines.clear();
      }
    }
    return tables.stream().filter(table -> !table.sum().isEmpty()).toList();
  }

  private static void assertPrinted(double expected, String printed, String words) {
    int point = printed.indexOf('.');
    int decimals = point < 0 ? 0 : printed.length() - point - 1;
    double half = 0.5 * Math.pow(10, -decimals) * (1 + 1e-9);
    assertEquals(expected, Double.parseDouble(printed), half, words);
  }

  @ParameterizedTest
  @ValueSource(strings = {"build-wifi", "build-battery", "build-probe"})
  void everyRowAndSumIsRight(String page) throws IOException {
    List<Table> tables = tablesWithSums(Path.of("firmware-notes", page + ".md"));
    assertTrue(tables.size() >= 3, page + " has tables of costs and power");
    for (Table table : tables) {
      double sum = 0;
      for (List<String> row : table.rows()) {
        assertPrinted(table.value(row), row.get(row.size() - 1), page + " " + row);
        sum += table.value(row);
      }
      assertPrinted(sum, table.sum(), page + ", sum of " + table.head());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"build-battery", "build-probe"})
  void everyRuntimeFollowsFromTheTableAboveIt(String page) throws IOException {
    Path file = Path.of("firmware-notes", page + ".md");
    List<String> sums =
        tablesWithSums(file).stream()
            .filter(table -> table.head().contains("mAh a day"))
            .map(Table::sum)
            .toList();
    List<MatchResult> runtimes = RUNTIME.matcher(Files.readString(file)).results().toList();
    assertEquals(sums, runtimes.stream().map(found -> found.group(2)).toList());
    for (MatchResult found : runtimes) {
      double days = Double.parseDouble(found.group(1)) / Double.parseDouble(found.group(2));
      assertPrinted(days, found.group(3), found.group());
    }
  }
}
