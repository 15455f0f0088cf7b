package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;

/**
 * What somebody may have to be told about, as it is now: an alert, or trouble of the service
 * itself.
 *
 * @param key unlike that of any other concern, for ever
 * @param comingKey under which it may have been told before it was raised
 * @param topic what it is about: the alert's kind, or the part of the service
 * @param since when it began
 * @param acknowledgedAt since when somebody knows; null while nobody does
 */
public record AlertSubject(
    String key,
    String comingKey,
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
   * Whether it told of what had not happened yet. Its end is no news: what was foreseen has come,
   * and has a notice of its own, or will not come.
   */
  boolean foresees() {
    return Arrays.stream(AlertKind.values())
        .anyMatch(kind -> kind.foresees() && kind.key().equals(topic));
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
   * By its number alone, which is never given twice: readings that come late may show that the same
   * alert was raised earlier.
   */
  static String key(Alert alert) {
    return "alert-" + alert.id();
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
