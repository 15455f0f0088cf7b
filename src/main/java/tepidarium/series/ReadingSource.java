package tepidarium.series;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Queries stored readings, raw as the sensors sent them. Thread-safe. */
public interface ReadingSource {
  /**
   * The samples of each quantity from the span's start to its end, both included. A quantity that
   * was not reported has no entry. To interpolate across both edges, widen the span by the longest
   * allowed gap on either side.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<Quantity, Samples> read(SensorId sensor, Span span);

  /**
   * The readings of uncertain time, as {@link #read} gives the others. No other query returns them.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<Quantity, Samples> readUncertain(SensorId sensor, Span span);

  /**
   * The instant of the sensor's first reading in the span, both ends included.
   *
   * @throws StoreException when the store cannot answer now
   */
  Optional<Instant> firstAt(SensorId sensor, Span span);

  /**
   * A summary of each sensor that has sent a reading.
   *
   * @throws StoreException when the store cannot answer now
   */
  Map<SensorId, SensorSummary> summaries();

  /**
   * Counts the readings of uncertain time by sensor. The counts are cached; while the store is
   * down, the last known ones are returned.
   */
  Map<SensorId, UncertainReadings> uncertain();
}
