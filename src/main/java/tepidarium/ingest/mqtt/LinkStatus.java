package tepidarium.ingest.mqtt;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/** Stores the state of the link as a text, and the latest incident for one minute. Thread-safe. */
final class LinkStatus {
  /** An incident is reported for one minute. */
  private static final Duration INCIDENT_SHOWN = Duration.ofMinutes(1);

  private record Incident(String reason, long nanos) {}

  private volatile String state = "not connected yet";
  private volatile @Nullable Incident incident;

  String state() {
    return state;
  }

  void set(String text) {
    state = text;
  }

  /** Records why messages did not arrive. */
  void incident(String reason) {
    incident = new Incident(reason, System.nanoTime());
  }

  /** The reason of an incident within the last minute; null if there was none. */
  @Nullable String recentIncident() {
    Incident last = incident;
    return last != null && System.nanoTime() - last.nanos() < INCIDENT_SHOWN.toNanos()
        ? last.reason()
        : null;
  }
}
