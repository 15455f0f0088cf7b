package tepidarium.alert.notify;

import java.time.Instant;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Which notices were sent about an alert subject.
 *
 * @param subject key of the subject
 * @param topic topic of the subject
 * @param raisedAt time of the last raise notice
 * @param remindedAt time of the last reminder since then; null for none
 * @param escalatedAt time of the escalation since then; null for none
 */
public record NotificationState(
    String subject,
    String topic,
    Stage stage,
    Instant raisedAt,
    @Nullable Instant remindedAt,
    @Nullable Instant escalatedAt) {

  /** Older keys also contained the time at which the alert was raised. */
  private static final Pattern DATED_KEY = Pattern.compile("^(alert-\\d+)-\\d+$");

  /** The last kind of change that was announced. */
  public enum Stage {
    RAISED,
    RETURNED
  }

  static NotificationState raised(AlertSubject subject, Instant now) {
    Stage stage = subject.active() ? Stage.RAISED : Stage.RETURNED;
    return new NotificationState(subject.key(), subject.topic(), stage, now, null, null);
  }

  /** Converts an older key to one with the alert id only; leaves other keys unchanged. */
  NotificationState byNumber() {
    String key = DATED_KEY.matcher(subject).replaceFirst("$1");
    return new NotificationState(key, topic, stage, raisedAt, remindedAt, escalatedAt);
  }

  NotificationState returned() {
    return new NotificationState(subject, topic, Stage.RETURNED, raisedAt, remindedAt, escalatedAt);
  }

  NotificationState reminded(Instant now) {
    return new NotificationState(subject, topic, stage, raisedAt, now, escalatedAt);
  }

  NotificationState escalated(Instant now) {
    return new NotificationState(subject, topic, stage, raisedAt, remindedAt, now);
  }

  Instant lastAt() {
    return remindedAt == null ? raisedAt : remindedAt;
  }
}
