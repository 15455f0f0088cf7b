package tepidarium.series;

import java.util.List;
import java.util.stream.Stream;

/**
 * The outcome of writing a batch that is now durable. Readings counted in none of the three parts
 * wait in the local spool until the store accepts them.
 *
 * @param stored number of readings that added at least one value
 * @param repeated number of duplicates: every quantity was already stored
 * @param refused readings that the store rejects permanently
 */
public record WriteResult(int stored, int repeated, List<RefusedReading> refused) {
  public static final WriteResult NOTHING = new WriteResult(0, 0);

  /** Nothing was refused. */
  public WriteResult(int stored, int repeated) {
    this(stored, repeated, List.of());
  }

  public WriteResult {
    refused = List.copyOf(refused);
  }

  /** Adds the result of the next write. */
  public WriteResult plus(WriteResult next) {
    return new WriteResult(
        stored + next.stored,
        repeated + next.repeated,
        Stream.concat(refused.stream(), next.refused.stream()).toList());
  }
}
