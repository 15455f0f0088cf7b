package tepidarium.alert.notify;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;

/**
 * The subject of a notification in its present state: an alert or a service trouble.
 *
 * @param key unique key, never reused
 * @param pendingKey key under which it may have been listed as a pending alert
 * @param topic the alert's kind, or the part of the service
 * @param since start
 * @param acknowledgedAt time of acknowledgement; null until then
 */
public record AlertSubject(
    String key,
    String pendingKey,
    String topic,
    Priority priority,
    Instant since,
    boolean active,
    @Nullable Instant acknowledgedAt,
    boolean shelved) {

  boolean acknowledged() {
    return acknowledgedAt != null;
  }

  /**
   * Whether it is a forecast. The return of a forecast is not announced: either the event has
   * happened and has its own notice, or it will not happen.
   */
  boolean isForecast() {
    return AlertKind.ofKey(topic).filter(AlertKind::isForecast).isPresent();
  }

  static AlertSubject of(Alert alert, Instant now) {
    return new AlertSubject(
        key(alert),
        PendingAlert.key(alert.key()),
        alert.kind().key(),
        alert.priority(),
        alert.since(),
        alert.active(),
        alert.acknowledgedAt(),
        alert.shelvedAt(now));
  }

  /**
   * The key consists of the alert id, which is never reused. The time raised is not part of it,
   * because late readings may change it.
   */
  static String key(Alert alert) {
    return key(alert.id());
  }

  static String key(long alert) {
    return "alert-" + alert;
  }

  static AlertSubject of(Trouble trouble) {
    return new AlertSubject(
        trouble.key(),
        trouble.key(),
        trouble.kind().key(),
        trouble.kind().priority(),
        trouble.since(),
        trouble.active(),
        null,
        false);
  }
}
