package tepidarium.ingest;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.ClockCheck;
import tepidarium.reading.Reading;

/** Collects the faults that show when messages arrive. Used by one thread. */
final class ArrivalFaults {
  private final ClockCheck clocks = new ClockCheck();

  /** The refused values of a message, and the faults of the clocks of its sensors. */
  List<ArrivalFault> of(Decoded decoded, Instant arrivedAt) {
    List<ArrivalFault> faults = new ArrayList<>(decoded.faults());
    for (Reading reading : decoded.readings()) {
      if (reading.arrival() == null) {
        clocks.arrived(reading.sensor(), reading.at(), arrivedAt).ifPresent(faults::add);
      }
    }
    return faults;
  }
}
