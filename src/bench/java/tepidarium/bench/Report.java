package tepidarium.bench;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** The table, in Markdown: what can be put as a ratio comes first. */
final class Report {
  /** NaN for no ratio. */
  private record Row(double ratio, String goal, String what, String here, String against) {}

  private final List<Row> rows = new ArrayList<>();

  /**
   * A row with a ratio of two figures of the same unit.
   *
   * @param goal the least or most that it should be, in words
   */
  void ratio(String what, String goal, String unit, double here, String against, double other) {
    add(
        new Row(
            here / other, goal, what, figure(here) + unit, against + ": " + figure(other) + unit));
  }

  /** A row with a figure of its own. */
  void figure(String what, String goal, String here) {
    add(new Row(Double.NaN, goal, what, here, ""));
  }

  private void add(Row row) {
    rows.add(row);
    System.err.println("  " + line(row));
  }

  static String figure(double value) {
    return value >= 100
        ? String.format(Locale.ROOT, "%,.0f", value)
        : String.format(Locale.ROOT, "%.3g", value);
  }

  String markdown() {
    StringBuilder table = new StringBuilder();
    table.append("| ratio | goal | what | here | compared with |\n");
    table.append("| ---: | --- | --- | --- | --- |\n");
    rows.stream()
        .sorted(Comparator.comparing(row -> Double.isNaN(row.ratio())))
        .forEach(row -> table.append(line(row)).append('\n'));
    return table.toString();
  }

  private static String line(Row row) {
    String ratio = Double.isNaN(row.ratio()) ? "" : String.format(Locale.ROOT, "%.2f", row.ratio());
    return "| "
        + String.join(" | ", ratio, row.goal(), row.what(), row.here(), row.against())
        + " |";
  }
}
