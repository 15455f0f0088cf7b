package tepidarium.series;

import java.util.List;
import tepidarium.reading.Reading;

/** Keeps readings. One thread at a time. */
public interface ReadingSink {
  /** How far a reading may be moved, milliseconds, when its instant is taken by another value. */
  int MOST_MOVED_MS = 100;

  /**
   * Keeps a batch. When it returns, the batch has reached the disk, except for the readings that
   * the result names as refused. When it throws, some of the batch may have been kept; trying the
   * whole batch again does no harm.
   *
   * <ul>
   *   <li>A reading with the same values at the same instant as before is repeated: it changes
   *       nothing.
   *   <li>A reading that brings a quantity still missing at its instant completes the reading
   *       there.
   *   <li>A reading that brings another value at an instant is stored at the next free millisecond,
   *       up to {@link #MOST_MOVED_MS} later; where none is free it is refused.
   *   <li>A reading of a repeated delivery, without a time of its own, is repeated where the sensor
   *       has the same values from that delivery.
   *   <li>Readings of uncertain time are kept apart: {@link ReadingSource#uncertain} counts them,
   *       no other question is answered from them.
   * </ul>
   *
   * @throws StoreException when the store cannot take it now; the batch may be tried again
   */
  WriteResult write(List<Reading> batch);

  /** Why a reading was refused whose instant and the ones after it are taken. */
  static String noRoomAt(Reading reading) {
    return "other values of this sensor stand at "
        + reading.at()
        + " and at each of the "
        + MOST_MOVED_MS
        + " ms after it: its clock seems to stand still. Set the clock, or send age in place of at";
  }
}
