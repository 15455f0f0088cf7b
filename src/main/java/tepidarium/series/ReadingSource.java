package tepidarium.series;

import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Reads readings back, raw as the sensors sent them. Safe for use by several threads. */
public interface ReadingSource {
  /**
   * The samples of each quantity from the span's start to its end, both included; where {@code
   * neighbours} is set also the nearest reading on either side, so that the straight lines across
   * the edges are known. A quantity that was never reported has no entry.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<Quantity, Samples> read(SensorId sensor, Span span, boolean neighbours);

  /**
   * Every sensor heard of, with what is known of it.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<SensorId, Heard> heard();
}
