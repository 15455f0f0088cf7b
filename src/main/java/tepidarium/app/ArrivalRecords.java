package tepidarium.app;

import java.util.List;
import java.util.function.Consumer;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectLog;
import tepidarium.records.RejectRecords;

/**
 * Stores the messages that the intake refused, and the faults that it sees when a message arrives.
 * The intake does not wait for a database on another machine, which may be away.
 */
record ArrivalRecords(RejectLog rejects, Consumer<List<ArrivalFault>> faults) {
  /** Writes at once, into a file on this machine. */
  static ArrivalRecords direct(RejectLog rejects, ArrivalFaultStore faults) {
    return new ArrivalRecords(rejects, faults::add);
  }

  /** Writes a little later, on threads that {@code running} stops. */
  static ArrivalRecords deferred(
      RejectLog rejects, ArrivalFaultStore faults, RunningParts running) {
    return new ArrivalRecords(
        new Deferred(rejects, writes("reject-log", rejects::add, running)),
        writes("arrival-faults", faults::add, running)::add);
  }

  private static <T> DeferredWrites<T> writes(
      String name, Consumer<List<T>> store, RunningParts running) {
    return running.add(new DeferredWrites<>(name, RejectRecords.KEPT, store).start());
  }

  private record Deferred(RejectLog log, DeferredWrites<Reject> writes) implements RejectLog {
    @Override
    public void add(List<Reject> rejects) {
      writes.add(rejects);
    }

    @Override
    public List<Line> newest(int limit) {
      return log.newest(limit);
    }
  }
}
