package tepidarium.series;

import java.util.List;
import tepidarium.reading.Reading;

/** Keeps readings. One thread at a time. */
public interface ReadingSink {
  /**
   * Keeps a batch, all of it or, when it throws, nothing. When it returns, the batch has reached
   * the disk. A reading is known by its sensor and instant: one that comes again changes nothing,
   * and one that brings a quantity still missing there completes it.
   *
   * @throws StoreException when the store cannot take it now; the batch may be tried again
   */
  WriteResult write(List<Reading> batch);
}
