package tepidarium.germination;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the checks of a sowing tell of when its seeds germinated, in days since it. Counts add up to
 * the number sown.
 */
public record GerminationData(int sown, List<Row> rows) {
  /** What became of the seeds of a row. */
  public enum Fate {
    GERMINATED,
    /** Discarded ungerminated: nothing is known after they were last seen sound. */
    CULLED,
    /** Not germinated yet when last seen. */
    REMAINING
  }

  /**
   * Seeds that germinated after one day and by another.
   *
   * @param from when they were last seen sound and ungerminated, days since sowing
   * @param to when they were found germinated; null where they were never seen to germinate
   */
  public record Row(double from, @Nullable Double to, int count, Fate fate, GroupId group) {}

  public GerminationData {
    rows = List.copyOf(rows);
  }

  /** How many seeds had that fate. */
  public int count(Fate fate) {
    return rows.stream().filter(row -> row.fate() == fate).mapToInt(Row::count).sum();
  }
}
