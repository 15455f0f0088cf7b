package tepidarium.alert.notify;

import java.time.Instant;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How far a concern has been told.
 *
 * @param concern its key
 * @param topic its topic
 * @param raisedAt when it was last told that it is wrong
 * @param remindedAt when it was last reminded of since then, or null
 * @param escalatedAt when it went to the second address since then, or null
 */
public record NotificationState(
    String concern,
    String topic,
    Stage stage,
    Instant raisedAt,
    @Nullable Instant remindedAt,
    @Nullable Instant escalatedAt) {

  /** Such a key once held when the alert was raised, too. */
  private static final Pattern DATED_KEY = Pattern.compile("^(alert-\\d+)-\\d+$");

  /** The last that was told. */
  public enum Stage {
    RAISED,
    RETURNED
  }

  static NotificationState raised(AlertSubject concern, Instant now) {
    Stage stage = concern.active() ? Stage.RAISED : Stage.RETURNED;
    return new NotificationState(concern.key(), concern.topic(), stage, now, null, null);
  }

  /** The same under the key that holds nothing but the alert's number; others stay as they are. */
  NotificationState byNumber() {
    String key = DATED_KEY.matcher(concern).replaceFirst("$1");
    return new NotificationState(key, topic, stage, raisedAt, remindedAt, escalatedAt);
  }

  NotificationState returned() {
    return new NotificationState(concern, topic, Stage.RETURNED, raisedAt, remindedAt, escalatedAt);
  }

  NotificationState reminded(Instant now) {
    return new NotificationState(concern, topic, stage, raisedAt, now, escalatedAt);
  }

  NotificationState escalated(Instant now) {
    return new NotificationState(concern, topic, stage, raisedAt, remindedAt, now);
  }

  Instant lastAt() {
    return remindedAt == null ? raisedAt : remindedAt;
  }
}
