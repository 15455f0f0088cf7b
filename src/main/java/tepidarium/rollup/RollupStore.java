package tepidarium.rollup;

import java.util.List;
import java.util.OptionalLong;
import tepidarium.container.ContainerId;

/**
 * Keeps whole hours. Every row carries the fingerprint on which it was worked out: one number for all the
 * settings, placements and calibrations that went into it. Safe for use by several threads.
 */
public interface RollupStore {
  /**
   * The hours from {@code fromMs}, included, to {@code toMs}, excluded, that have this fingerprint, and
   * those for which there are no raw readings any more, whatever theirs.
   */
  List<RollupRow> read(ContainerId container, long fingerprint, long fromMs, long toMs);

  /** Adds or replaces hours. */
  void put(ContainerId container, long fingerprint, List<RollupRow> rows);

  /** Forgets the hours from {@code fromMs}, included, to {@code toMs}, excluded; durably. */
  void forget(ContainerId container, long fromMs, long toMs);

  /** The end of the latest hour that was ever kept for the container; 0 for none. */
  long keptUntilMs(ContainerId container);

  /** The start of the earliest hour that is kept for the container; empty for none. */
  OptionalLong keptFromMs(ContainerId container);

  /** Before which instant raw readings have been let go; 0 for none. */
  long rawFromMs();

  /** Raw readings before this instant are about to be let go. */
  void rawFromMs(long instantMs);
}
