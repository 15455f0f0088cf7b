package tepidarium.reading;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The lines of a table that an import refuses.
 *
 * @param file the name of the table's file; empty if only one was sent
 * @param lines the first of them
 * @param more how many more there are
 */
public record RefusedTable(String file, List<Line> lines, int more) {

  public RefusedTable {
    lines = List.copyOf(lines);
  }

  /**
   * One line.
   *
   * @param number from 1 on, with the header
   * @param words what is wrong, in a sentence for people
   * @param field the column; null if no single one is wrong
   * @param broken the rule that it breaks; null where the pages have no words for it
   */
  public record Line(
      long number, String words, @Nullable String field, @Nullable BrokenRule broken) {}
}
