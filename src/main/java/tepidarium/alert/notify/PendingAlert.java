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
 * A condition that is outside its limit, but not yet for as long as its on-delay asks. What reaches
 * a whole shelf, such as a power cut, reaches each container at its own pace: so when one alert is
 * told, those of its kind on their way are told along with it, and not again when they are raised.
 *
 * @param of which condition of which container
 * @param since the first reading outside
 * @param worst the value furthest outside since then, in the unit of the kind
 */
public record PendingAlert(AlertKey of, Instant since, double worst) {
  private static final String PREFIX = "coming-";

  /** What has not been judged for so long may be back inside; common practice, no source. */
  private static final Duration FRESH = Duration.ofMinutes(15);

  /** Those on their way, oldest first; none whose alert somebody has put aside. */
  static List<PendingAlert> among(
      Map<AlertKey, Condition> conditions, Collection<Alert> open, Instant now) {
    Set<AlertKey> shelved = new HashSet<>();
    open.stream().filter(alert -> alert.shelvedAt(now)).forEach(alert -> shelved.add(alert.key()));
    return conditions.entrySet().stream()
        .filter(entry -> onItsWay(entry.getValue(), now) && !shelved.contains(entry.getKey()))
        .map(entry -> of(entry.getKey(), entry.getValue()))
        .sorted(Comparator.comparing(PendingAlert::since).thenComparing(PendingAlert::key))
        .toList();
  }

  private static boolean onItsWay(Condition condition, Instant now) {
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

  /** That it was told along, at the instant given. */
  NotificationState told(Instant now) {
    return new NotificationState(key(), topic(), NotificationState.Stage.RAISED, now, null, null);
  }

  static boolean isKey(String key) {
    return key.startsWith(PREFIX);
  }
}
