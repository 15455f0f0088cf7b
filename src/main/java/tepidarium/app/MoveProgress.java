package tepidarium.app;

import java.time.Instant;
import java.time.ZoneOffset;
import tepidarium.moving.ReadingMove;
import tepidarium.reading.SensorId;

/** Prints the progress of a move to standard error, at most every two seconds. */
final class MoveProgress implements ReadingMove.Progress {
  private static final double NANOS = 1e9;

  private long lastNanos = System.nanoTime();
  private long lastReadings;

  @Override
  public void verified(SensorId sensor, Instant day, int sensorsLeft, double share, long readings) {
    double seconds = (System.nanoTime() - lastNanos) / NANOS;
    if (seconds < 2) {
      return;
    }
    System.err.printf(
        "  %s, %s: %,d readings, %,.0f a second; %.0f %% of the days and %d of the sensors are left%n",
        sensor.name(),
        day.atZone(ZoneOffset.UTC).toLocalDate(),
        readings,
        (readings - lastReadings) / seconds,
        100 * (1 - share),
        sensorsLeft);
    lastNanos = System.nanoTime();
    lastReadings = readings;
  }
}
