package tepidarium.series;

import java.util.List;
import tepidarium.reading.Reading;

/** Stores readings. Not thread-safe: one thread calls it at a time. */
public interface ReadingSink {
  /** The furthest a reading is shifted, ms, when its instant already holds another value. */
  int MAX_SHIFT_MS = 100;

  /**
   * Stores a batch. When this returns, the batch is durable, except for the readings that the
   * result lists as refused. When this throws, part of the batch may be stored; a retry of the
   * whole batch is safe.
   *
   * <ul>
   *   <li>A reading with the same values at the same instant is a duplicate: it changes nothing.
   *   <li>A reading with a quantity that is missing at its instant is merged into the stored
   *       reading.
   *   <li>A reading with a different value at an occupied instant is stored at the next free
   *       millisecond, up to {@link #MAX_SHIFT_MS} later. If none is free, it is refused.
   *   <li>A redelivered reading without a timestamp of its own is a duplicate if the sensor already
   *       has the same values from that delivery.
   *   <li>Readings of uncertain time are stored separately: {@link ReadingSource#uncertain} counts
   *       them; no other query returns them.
   * </ul>
   *
   * @throws StoreException when the store cannot accept the batch now; retry later
   */
  WriteResult write(List<Reading> batch);

  /**
   * The reason for refusing a reading when its instant and all later ones in reach are occupied.
   */
  static String noFreeInstant(Reading reading) {
    return "this sensor already has other values at "
        + reading.at()
        + " and at each of the "
        + MAX_SHIFT_MS
        + " ms after it. Its clock seems to stand still: set the clock, or send age instead of at";
  }
}
