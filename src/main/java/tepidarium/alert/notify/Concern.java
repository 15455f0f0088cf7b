package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Arrays;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;

/**
 * What somebody may have to be told about, as it is now: an alert, or trouble of the service
 * itself.
 *
 * @param key unlike that of any other concern, for ever
 * @param topic what it is about: the alert's kind, or the part of the service
 */
public record Concern(
    String key,
    String topic,
    Priority priority,
    boolean active,
    boolean acknowledged,
    boolean shelved) {

  /**
   * Whether it told of what had not happened yet. Its end is no news: what was foreseen has come,
   * and has a notice of its own, or will not come.
   */
  boolean foresees() {
    return Arrays.stream(AlertKind.values())
        .anyMatch(kind -> kind.foresees() && kind.key().equals(topic));
  }

  static Concern of(Alert alert, Instant now) {
    return new Concern(
        key(alert),
        alert.kind().key(),
        alert.priority(),
        alert.active(),
        alert.acknowledged(),
        alert.shelvedAt(now));
  }

  static String key(Alert alert) {
    return "alert-" + alert.id() + '-' + alert.raisedAt().toEpochMilli();
  }

  static Concern of(Trouble trouble) {
    return new Concern(
        trouble.key(),
        trouble.kind().key(),
        trouble.kind().priority(),
        trouble.active(),
        false,
        false);
  }
}
