package tepidarium.series;

import java.util.List;
import java.util.stream.Stream;

/**
 * What became of a batch that is now durable. Readings of the batch in none of the three parts are
 * kept on this machine until the store takes them.
 *
 * @param stored readings that added something
 * @param repeated readings whose every quantity was there already
 * @param refused readings that the store will never take
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

  /** This and the result of what was written next. */
  public WriteResult plus(WriteResult next) {
    return new WriteResult(
        stored + next.stored,
        repeated + next.repeated,
        Stream.concat(refused.stream(), next.refused.stream()).toList());
  }
}
