package tepidarium.series;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Reads readings back, raw as the sensors sent them. Safe for use by several threads. */
public interface ReadingSource {
  /**
   * The samples of each quantity from the span's start to its end, both included. A quantity that
   * was not reported has no entry. To know the straight lines across the edges, ask for a span
   * wider by the longest gap on either side.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<Quantity, Samples> read(SensorId sensor, Span span);

  /**
   * The instant of the sensor's first reading in the span, both ends included.
   *
   * @throws StoreException when the store cannot answer now
   */
  Optional<Instant> firstAt(SensorId sensor, Span span);

  /**
   * Every sensor heard of, with what is known of it.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<SensorId, SensorSummary> heard();

  /**
   * The readings of uncertain time, by sensor: kept, but left out of all other answers. Quick, as
   * the counts are cached; while the store does not answer they are those known before.
   */
  Map<SensorId, UncertainReadings> uncertain();
}
