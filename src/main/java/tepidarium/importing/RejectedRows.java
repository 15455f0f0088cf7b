package tepidarium.importing;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;

/**
 * Writes the rejected rows of an import to a CSV file: line, reason and text of each. The file of
 * an earlier import is replaced; without a rejected row there is no file.
 */
public final class RejectedRows implements AutoCloseable {
  private final Path file;
  private @Nullable CSVPrinter printer;
  private long count;

  /**
   * Deletes the file of an earlier import.
   *
   * @param folder the folder of the file; null for the folder of the imported file
   */
  public RejectedRows(Path imported, @Nullable Path folder) throws IOException {
    String name = imported.getFileName() + "-rejected.csv";
    file = folder == null ? imported.resolveSibling(name) : folder.resolve(name);
    Files.deleteIfExists(file);
  }

  /** The file, which exists once a row is rejected. */
  public Path file() {
    return file;
  }

  public long count() {
    return count;
  }

  void add(long line, String reason, String text) {
    try {
      CSVPrinter open = printer;
      if (open == null) {
        BufferedWriter writer = Files.newBufferedWriter(file);
        open = new CSVPrinter(writer, CSVFormat.RFC4180);
        printer = open;
        open.printRecord("line", "reason", "text");
      }
      open.printRecord(line, reason, text);
      count++;
    } catch (IOException e) {
      throw new UncheckedIOException(
          "cannot write " + file + ". Choose another folder with --rejected", e);
    }
  }

  /** What was rejected, in words. */
  public String summary() {
    return count == 0
        ? "no rows rejected"
        : "%s rejected (see %s)".formatted(Amount.of(count, "row"), file);
  }

  @Override
  public void close() throws IOException {
    if (printer != null) {
      printer.close();
    }
  }
}
