package tepidarium.rollup;

import java.util.List;
import java.util.OptionalLong;
import tepidarium.container.ContainerId;

/**
 * Stores the rollups of whole hours. Each row carries the fingerprint of the settings, placements
 * and calibrations with which it was computed. Thread-safe.
 */
public interface RollupStore {
  /**
   * The hours from {@code fromMs} (inclusive) to {@code toMs} (exclusive) with this fingerprint.
   * Hours whose raw readings have been deleted are returned with any fingerprint, because they
   * cannot be recomputed.
   */
  List<RollupRow> read(ContainerId container, long fingerprint, long fromMs, long toMs);

  /** Adds or replaces hours. */
  void put(ContainerId container, long fingerprint, List<RollupRow> rows);

  /**
   * Deletes the hours from {@code fromMs} (inclusive) to {@code toMs} (exclusive). The deletion is
   * durable when this returns.
   */
  void delete(ContainerId container, long fromMs, long toMs);

  /** The end of the latest hour ever stored for the container; 0 for none. */
  long storedUntilMs(ContainerId container);

  /** The start of the earliest stored hour of the container; empty for none. */
  OptionalLong storedFromMs(ContainerId container);

  /** The instant before which raw readings have been deleted; 0 if none have been. */
  long rawFromMs();

  /** Records that raw readings before this instant are about to be deleted. */
  void rawFromMs(long instantMs);
}
