package tepidarium.series;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import tepidarium.reading.Reading;

/**
 * The outcome of writing a batch that is now durable. Each reading of the batch is counted in
 * exactly one of the four parts.
 *
 * @param stored number of readings that added at least one value
 * @param repeated number of duplicates: every quantity was already stored
 * @param refused readings that the store rejects permanently
 * @param queued number of readings that wait in the local spool until the store accepts them
 */
public record WriteResult(int stored, int repeated, List<RefusedReading> refused, int queued) {
  public static final WriteResult NOTHING = new WriteResult(0, 0);

  /** Nothing was refused or queued. */
  public WriteResult(int stored, int repeated) {
    this(stored, repeated, List.of());
  }

  /** Nothing was queued. */
  public WriteResult(int stored, int repeated, List<RefusedReading> refused) {
    this(stored, repeated, refused, 0);
  }

  /** All readings were queued. */
  public static WriteResult queued(int readings) {
    return new WriteResult(0, 0, List.of(), readings);
  }

  public WriteResult {
    refused = List.copyOf(refused);
  }

  /** Returns the readings of the batch without the refused ones. */
  public List<Reading> accepted(List<Reading> batch) {
    if (refused.isEmpty()) {
      return batch;
    }
    Set<Reading> without = Collections.newSetFromMap(new IdentityHashMap<>());
    refused.forEach(one -> without.add(one.reading()));
    return batch.stream().filter(reading -> !without.contains(reading)).toList();
  }

  /** Adds the result of the next write. */
  public WriteResult plus(WriteResult next) {
    return new WriteResult(
        stored + next.stored,
        repeated + next.repeated,
        Stream.concat(refused.stream(), next.refused.stream()).toList(),
        queued + next.queued);
  }
}
