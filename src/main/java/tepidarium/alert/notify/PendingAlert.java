package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKey;
import tepidarium.alert.Condition;

/**
 * A condition that is outside its limit but still in its on-delay. A shared cause, such as a power
 * cut, affects the containers of a shelf at different times. Therefore a notice about one alert
 * also lists the pending alerts of its kind. They are not announced again when they are raised.
 *
 * @param of the container and alert kind
 * @param since the first reading outside
 * @param worst value furthest outside the limit, in the unit of the kind
 */
public record PendingAlert(AlertKey of, Instant since, double worst) {
  private static final String PREFIX = "coming-";

  /**
   * A condition without a reading for longer than this may be back inside; common practice, no
   * source.
   */
  private static final Duration FRESH = Duration.ofMinutes(15);

  /** The pending alerts, oldest first; without kinds whose alert is shelved. */
  static List<PendingAlert> among(
      Map<AlertKey, Condition> conditions, Collection<Alert> open, Instant now) {
    Set<AlertKey> shelved = new HashSet<>();
    open.stream().filter(alert -> alert.shelvedAt(now)).forEach(alert -> shelved.add(alert.key()));
    return conditions.entrySet().stream()
        .filter(entry -> isPending(entry.getValue(), now) && !shelved.contains(entry.getKey()))
        .map(entry -> of(entry.getKey(), entry.getValue()))
        .sorted(Comparator.comparing(PendingAlert::since).thenComparing(PendingAlert::key))
        .toList();
  }

  private static boolean isPending(Condition condition, Instant now) {
    Instant lastAt = condition.lastAt();
    return condition.since() != null
        && !condition.active()
        && lastAt != null
        && lastAt.isAfter(now.minus(FRESH));
  }

  private static PendingAlert of(AlertKey key, Condition condition) {
    return new PendingAlert(key, Objects.requireNonNull(condition.since()), condition.worst());
  }

  static String key(AlertKey of) {
    return PREFIX + of.container().value() + '-' + of.kind().key();
  }

  String key() {
    return key(of);
  }

  String topic() {
    return of.kind().key();
  }

  /** The notification state after it was listed in a notice at the given instant. */
  NotificationState announcedAt(Instant now) {
    return new NotificationState(key(), topic(), NotificationState.Stage.RAISED, now, null, null);
  }

  static boolean isKey(String key) {
    return key.startsWith(PREFIX);
  }
}
