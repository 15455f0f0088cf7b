package tepidarium.ingest.mqtt;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * Stores the state of the link in words, and the latest incident for one minute. Safe for use by
 * several threads.
 */
final class LinkStatus {
  /** How long an incident that is over is still reported. */
  private static final Duration INCIDENT_SHOWN = Duration.ofMinutes(1);

  private record Incident(String words, long nanos) {}

  private volatile String state = "not connected yet";
  private volatile @Nullable Incident incident;

  String state() {
    return state;
  }

  void set(String words) {
    state = words;
  }

  /** Stores the reason why messages did not arrive. */
  void incident(String words) {
    incident = new Incident(words, System.nanoTime());
  }

  /** The reason of an incident within the last minute; null if there was none. */
  @Nullable String recentIncident() {
    Incident last = incident;
    return last != null && System.nanoTime() - last.nanos() < INCIDENT_SHOWN.toNanos()
        ? last.words()
        : null;
  }
}
