package tepidarium.app;

import java.io.PrintWriter;
import java.util.Map;
import java.util.stream.Collectors;
import tepidarium.importing.RowReceiver;
import tepidarium.reading.Reading;

/** Prints the first rows of an import as they would be stored. */
final class ImportPreview implements RowReceiver {
  private static final int MAX_ROWS = 10;
  private static final int MAX_EMPTY_ROWS = 1_000;

  private final PrintWriter out;
  private int rows;
  private int emptyRows;

  ImportPreview(PrintWriter out) {
    this.out = out;
  }

  @Override
  public boolean reading(long line, Reading reading) {
    String values =
        reading.values().entrySet().stream()
            .map(ImportPreview::describe)
            .collect(Collectors.joining(", "));
    out.println("  line " + line + ": " + reading.sensor() + ' ' + reading.at() + ' ' + values);
    rows++;
    return rows < MAX_ROWS;
  }

  private static String describe(Map.Entry<tepidarium.reading.Quantity, Double> value) {
    return value.getKey().key() + ' ' + value.getValue() + ' ' + value.getKey().unit();
  }

  @Override
  public boolean bad(long line, String reason, String text) {
    out.println("  line " + line + " is rejected: " + reason);
    rows++;
    return rows < MAX_ROWS;
  }

  @Override
  public boolean empty(long line) {
    emptyRows++;
    if (emptyRows <= MAX_ROWS) {
      out.println("  line " + line + " has no values");
    }
    return emptyRows < MAX_EMPTY_ROWS;
  }
}
