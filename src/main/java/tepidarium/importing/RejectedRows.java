package tepidarium.importing;

import static java.nio.file.StandardOpenOption.APPEND;
import static java.nio.file.StandardOpenOption.CREATE;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;

/**
 * Writes the rejected rows of an import to a CSV file: line, reason and text of each. Without a
 * rejected row there is no file.
 */
public final class RejectedRows implements AutoCloseable {
  private final Path file;
  private @Nullable CSVPrinter printer;
  private long count;

  /**
   * Prepares the file.
   *
   * @param folder the folder of the file; null for the folder of the imported file
   * @param append whether to add to the file of an earlier import; otherwise it is deleted
   */
  public RejectedRows(Path imported, @Nullable Path folder, boolean append) throws IOException {
    Path beside = fileOf(imported);
    file = folder == null ? beside : folder.resolve(beside.getFileName());
    if (!append) {
      Files.deleteIfExists(file);
    }
  }

  /** The file of the rejected rows, beside the imported file. */
  static Path fileOf(Path imported) {
    return imported.resolveSibling(imported.getFileName() + "-rejected.csv");
  }

  /** The file, which exists once a row is rejected. */
  public Path file() {
    return file;
  }

  /** The number of rows that were rejected since this object was created. */
  public long count() {
    return count;
  }

  void add(long line, String reason, String text) {
    try {
      CSVPrinter open = printer;
      if (open == null) {
        boolean exists = Files.exists(file);
        BufferedWriter writer = Files.newBufferedWriter(file, CREATE, APPEND);
        open = new CSVPrinter(writer, CSVFormat.RFC4180);
        printer = open;
        if (!exists) {
          open.printRecord("line", "reason", "text");
        }
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
