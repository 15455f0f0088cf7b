package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * A condition that needs a person; states after ANSI/ISA-18.2. It is active until it has returned,
 * and open until it has both returned and been acknowledged.
 *
 * @param limit the limit in force when it was raised, in the unit of the kind
 * @param since the first reading outside
 * @param raisedAt when the on-delay ran out, event time
 * @param returnedAt null while active
 * @param acknowledgedAt null until somebody acknowledges
 * @param shelvedUntil null, or until when it is put aside
 * @param latest the newest value
 * @param worst the value furthest outside
 */
public record Alert(
    long id,
    ContainerId container,
    AlertKind kind,
    double limit,
    Instant since,
    Instant raisedAt,
    @Nullable Instant returnedAt,
    @Nullable Instant acknowledgedAt,
    @Nullable String acknowledgedBy,
    @Nullable Instant shelvedUntil,
    double latest,
    double worst) {

  static Alert raised(
      long id,
      ContainerId container,
      AlertKind kind,
      Rule rule,
      Condition condition,
      Instant at,
      double value) {
    Instant since = condition.since() == null ? at : condition.since();
    return new Alert(
        id,
        container,
        kind,
        rule.limit().value(),
        since,
        at,
        null,
        null,
        null,
        null,
        value,
        condition.worst());
  }

  public boolean active() {
    return returnedAt == null;
  }

  public boolean acknowledged() {
    return acknowledgedAt != null;
  }

  public boolean open() {
    return active() || !acknowledged();
  }

  public boolean shelvedAt(Instant now) {
    return shelvedUntil != null && now.isBefore(shelvedUntil);
  }

  Alert withValue(Rule rule, double value) {
    return copy(
        returnedAt, acknowledgedAt, acknowledgedBy, shelvedUntil, value, rule.worse(worst, value));
  }

  Alert returned(Instant at) {
    return copy(at, acknowledgedAt, acknowledgedBy, shelvedUntil, latest, worst);
  }

  /** Active again before anybody had seen that it returned. */
  Alert raisedAgain() {
    return copy(null, null, null, shelvedUntil, latest, worst);
  }

  Alert acknowledged(Instant at, String by) {
    return copy(returnedAt, at, by, shelvedUntil, latest, worst);
  }

  Alert shelved(@Nullable Instant until) {
    return copy(returnedAt, acknowledgedAt, acknowledgedBy, until, latest, worst);
  }

  private Alert copy(
      @Nullable Instant returned,
      @Nullable Instant acknowledged,
      @Nullable String by,
      @Nullable Instant shelved,
      double newLatest,
      double newWorst) {
    return new Alert(
        id,
        container,
        kind,
        limit,
        since,
        raisedAt,
        returned,
        acknowledged,
        by,
        shelved,
        newLatest,
        newWorst);
  }
}
