package tepidarium.ingest;

import org.jspecify.annotations.Nullable;

/**
 * Counts of entries (readings and refused lines) since the start. Each is counted by itself, so
 * received = stored + repeated + rejected + waiting holds only while no entry is lost or counted
 * twice.
 *
 * @param received readings decoded, things refused, and readings found waiting on disk at the start
 * @param stored readings that added something to the record
 * @param repeated readings that were there already
 * @param rejected things refused; the reject log keeps at most 20 lines of one message
 * @param waiting not yet durable, or durable on this disk and not yet in the readings store
 */
public record IntakeCounts(long received, long stored, long repeated, long rejected, long waiting) {

  /** Number of entries that were lost; negative if entries were counted twice. */
  public long unaccounted() {
    return received - stored - repeated - rejected - waiting;
  }

  /** Describes a wrong sum; null while the sum is right. */
  public @Nullable String imbalance() {
    long missing = unaccounted();
    if (missing == 0) {
      return null;
    }
    return missing > 0
        ? missing
            + " received readings are neither stored, repeated, rejected nor waiting."
            + " Please report this with the log"
        : -missing + " readings are counted twice. Please report this with the log";
  }
}
