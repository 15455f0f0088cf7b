package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import tepidarium.reading.Samples;

/**
 * An excursion that would have raised an alert if its readings had arrived in time.
 *
 * @param since the first reading outside
 * @param raisedAt when the on-delay ended
 * @param endedAt when it returned; the last reading outside if the return is not in the readings
 * @param worst value furthest outside the limit
 */
public record PastExcursion(Instant since, Instant raisedAt, Instant endedAt, double worst) {
  /**
   * Finds past excursions in samples, with the same condition as live monitoring.
   *
   * @param counts whether a reading at that instant is evaluated; false during openings
   */
  public static List<PastExcursion> in(
      Samples samples, Rule rule, Duration maxGap, Predicate<Instant> counts) {
    List<PastExcursion> found = new ArrayList<>();
    Condition condition = Condition.UNKNOWN;
    Instant raisedAt = Instant.MIN;
    Instant lastOutside = Instant.MIN;
    for (int i = 0; i < samples.size(); i++) {
      Instant at = Instant.ofEpochMilli(samples.atMs(i));
      if (!counts.test(at)) {
        continue;
      }
      Condition next = condition.after(rule, maxGap, at, samples.value(i));
      if (next.active() && !condition.active()) {
        raisedAt = at;
      } else if (condition.active() && !next.active()) {
        found.add(ended(condition, raisedAt, at));
      }
      lastOutside = next.active() && next.clearSince() == null ? at : lastOutside;
      condition = next;
    }
    if (condition.active()) {
      found.add(ended(condition, raisedAt, lastOutside));
    }
    return found;
  }

  private static PastExcursion ended(Condition condition, Instant raisedAt, Instant at) {
    Instant since = condition.since() == null ? raisedAt : condition.since();
    return new PastExcursion(since, raisedAt, at, condition.worst());
  }
}
