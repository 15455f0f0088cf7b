package tepidarium.ingest;

import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Reading;

/**
 * The readings and rejects of one message, or of a part of it. A message with one invalid quantity
 * has both a reading and a reject. Both lists are empty only for the service's own topics and for
 * button presses.
 *
 * @param refused number of rejected entries; may exceed the number of rejects, which is at most 20
 *     for one message
 * @param press a button press; null for all other messages
 * @param status what the sensor reported about itself; null if nothing
 * @param faults values that were refused because of their range, and wrong times; at most 1,000
 */
public record Decoded(
    List<Reading> readings,
    List<Reject> rejects,
    int refused,
    @Nullable ButtonPress press,
    @Nullable DeviceStatus status,
    List<ArrivalFault> faults) {
  public Decoded(List<Reading> readings, List<Reject> rejects) {
    this(readings, rejects, rejects.size(), null, null, List.of());
  }

  public Decoded {
    readings = List.copyOf(readings);
    rejects = List.copyOf(rejects);
    faults = List.copyOf(faults);
  }

  /** Returns a copy with each reading replaced. */
  Decoded with(UnaryOperator<Reading> replacement) {
    return readings.isEmpty()
        ? this
        : new Decoded(
            readings.stream().map(replacement).toList(), rejects, refused, press, status, faults);
  }
}
