package tepidarium.exchange;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** Collects what is wrong with a table, line by line, so that all of it is told at once. */
final class Problems {
  private static final int MOST_TOLD = 20;

  private final List<String> found = new ArrayList<>();

  void add(long line, @Nullable String problem) {
    found.add("line " + line + ": " + problem);
  }

  /**
   * Ends the reading when something was wrong.
   *
   * @throws InvalidInput naming the lines
   */
  void refuseIfAny() {
    if (found.isEmpty()) {
      return;
    }
    int more = found.size() - MOST_TOLD;
    String told = String.join("; ", found.subList(0, Math.min(MOST_TOLD, found.size())));
    throw new InvalidInput(
        "nothing was taken over: " + told + (more > 0 ? "; and " + more + " more" : ""));
  }
}
