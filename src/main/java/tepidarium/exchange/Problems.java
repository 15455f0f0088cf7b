package tepidarium.exchange;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** Collects the problems of a table by line, to report them together. */
final class Problems {
  private static final int MAX_REPORTED = 20;

  private final String file;
  private final List<String> found = new ArrayList<>();

  /**
   * @param file name of the file, for an import of several; empty for a single table
   */
  Problems(String file) {
    this.file = file;
  }

  void add(long line, @Nullable String problem) {
    found.add("line " + line + ": " + problem);
  }

  /**
   * Throws an exception if any problem was added.
   *
   * @throws InvalidInput naming the first 20 problems with their lines
   */
  void throwIfAny() {
    if (found.isEmpty()) {
      return;
    }
    int more = found.size() - MAX_REPORTED;
    String reported = String.join("; ", found.subList(0, Math.min(MAX_REPORTED, found.size())));
    throw refusal(reported + (more > 0 ? "; and " + more + " more" : ""), null);
  }

  /** A refusal of the whole import. */
  InvalidInput refusal(@Nullable String reason, @Nullable Throwable cause) {
    String words = "nothing was imported: " + (file.isEmpty() ? "" : file + ": ") + reason;
    return cause == null ? new InvalidInput(words) : new InvalidInput(words, cause);
  }
}
