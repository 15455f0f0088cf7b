package tepidarium.ingest;

import org.jspecify.annotations.Nullable;

/**
 * Counts of entries (readings and rejects) since the start. Each count is kept separately, so
 * received = stored + repeated + rejected + waiting holds only if no entry is lost or counted
 * twice.
 *
 * @param received readings decoded, entries rejected, and readings waiting on disk at the start
 * @param stored readings that added data to the store
 * @param repeated duplicates of stored readings
 * @param rejected entries rejected; the reject log keeps at most 20 lines of one message
 * @param waiting entries not yet stored, or stored on the local disk only
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
