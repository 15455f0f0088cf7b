package tepidarium.fault;

import java.util.List;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Stores faults that were noticed when messages arrived. Faults of one kind at most 1 h apart are
 * stored as one stretch, so that a broken sensor does not fill the store. Thread-safe.
 */
public interface ArrivalFaultStore {
  /** Adds faults. They are durable when the method returns. */
  void add(List<ArrivalFault> faults);

  /** The stretches of one sensor that touch the span, earliest first. */
  List<Fault> of(SensorId sensor, Span span);
}
