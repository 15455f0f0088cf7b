package tepidarium.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.RefusedTable;

/** Counts the problems of a table and keeps the first 20 by line, to report them together. */
final class Problems {
  private static final int MAX_REPORTED = 20;
  private static final int MAX_LENGTH = 500;

  private final String file;
  private final List<RefusedTable.Line> reported = new ArrayList<>();
  private int found;

  /**
   * @param file name of the file, for an import of several; empty for a single table
   */
  Problems(String file) {
    this.file = file;
  }

  /**
   * Adds what is wrong with a line; an invalid input also with its column and rule.
   *
   * @param line from 1 on, with the header
   */
  void add(long line, Throwable problem) {
    found++;
    if (reported.size() < MAX_REPORTED) {
      InvalidInput input = problem instanceof InvalidInput refused ? refused : null;
      String words = String.valueOf(problem.getMessage());
      reported.add(
          new RefusedTable.Line(
              line,
              words.length() > MAX_LENGTH ? words.substring(0, MAX_LENGTH) + "…" : words,
              input == null ? null : input.field(),
              input == null ? null : input.broken()));
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
    int more = Math.max(0, found - MAX_REPORTED);
    String all =
        reported.stream()
            .map(line -> "line " + line.number() + ": " + line.words())
            .collect(Collectors.joining("; "));
    throw new InvalidInput(
        words(all + (more > 0 ? "; and " + more + " more" : "")),
        new RefusedTable(file, reported, more));
  }

  /** A refusal of the whole import. */
  InvalidInput refusal(@Nullable String reason, @Nullable BrokenRule broken) {
    return new InvalidInput(words(reason), broken);
  }

  private String words(@Nullable String reason) {
    return "nothing was imported: " + (file.isEmpty() ? "" : file + ": ") + reason;
  }
}
