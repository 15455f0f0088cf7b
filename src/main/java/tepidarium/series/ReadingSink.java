package tepidarium.series;

import java.util.List;
import tepidarium.reading.Reading;

/** Keeps readings. One thread at a time. */
public interface ReadingSink {
  /**
   * Keeps a batch. When it returns, the batch has reached the disk, but for what the result names
   * as refused. A reading is known by its sensor and instant: one that comes again changes nothing,
   * and one that brings a quantity still missing there completes it. When it throws, some of the
   * batch may have been kept; trying the whole batch again does no harm.
   *
   * @throws StoreException when the store cannot take it now; the batch may be tried again
   */
  WriteResult write(List<Reading> batch);
}
