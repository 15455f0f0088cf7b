package tepidarium.exporting;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Which readings to export, and how.
 *
 * @param from the first instant, included; null for all from the earliest on
 * @param until the end, excluded; null for all until the newest
 * @param sensor only readings of this sensor; null for all sensors
 * @param container only readings of sensors while they were in this container; null for all places
 * @param calibrated whether to apply the calibration; raw readings are written as they are stored
 */
public record ExportOptions(
    ExportFormat format,
    @Nullable Instant from,
    @Nullable Instant until,
    @Nullable SensorId sensor,
    @Nullable ContainerId container,
    boolean calibrated) {
  /** Time in which readings can lie. */
  static final Span ALL = new Span(Reading.EARLIEST, Instant.parse("2100-01-01T00:00:00Z"));

  public ExportOptions {
    if (from != null && until != null && !from.isBefore(until)) {
      throw new InvalidInput("to", "must be later than from (" + from + ')');
    }
  }

  Instant start() {
    return from == null || from.isBefore(ALL.from()) ? ALL.from() : from;
  }

  Instant end() {
    return until == null || until.isAfter(ALL.to()) ? ALL.to() : until;
  }

  /** A file name for the export, such as {@code jar-1-readings.csv}. */
  public String fileName() {
    String who = container != null ? container.value() + '-' : "";
    String what = calibrated ? "calibrated-readings" : "readings";
    return who + (sensor == null ? "" : sensor.name() + '-') + what + '.' + format.extension();
  }
}
