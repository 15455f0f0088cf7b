package tepidarium.exchange;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** Counts the problems of a table and keeps the first 20 by line, to report them together. */
final class Problems {
  private static final int MAX_REPORTED = 20;
  private static final int MAX_LENGTH = 500;

  private final String file;
  private final List<String> reported = new ArrayList<>();
  private int found;

  /**
   * @param file name of the file, for an import of several; empty for a single table
   */
  Problems(String file) {
    this.file = file;
  }

  void add(long line, @Nullable String problem) {
    found++;
    if (reported.size() < MAX_REPORTED) {
      String words = "line " + line + ": " + problem;
      reported.add(words.length() > MAX_LENGTH ? words.substring(0, MAX_LENGTH) + "…" : words);
    }
  }

  /**
   * Throws an exception if any problem was added.
   *
   * @throws InvalidInput naming the first 20 problems with their lines
   */
  void throwIfAny() {
    if (found == 0) {
      return;
    }
    int more = found - MAX_REPORTED;
    throw refusal(String.join("; ", reported) + (more > 0 ? "; and " + more + " more" : ""), null);
  }

  /** A refusal of the whole import. */
  InvalidInput refusal(@Nullable String reason, @Nullable Throwable cause) {
    String words = "nothing was imported: " + (file.isEmpty() ? "" : file + ": ") + reason;
    return cause == null ? new InvalidInput(words) : new InvalidInput(words, cause);
  }
}
