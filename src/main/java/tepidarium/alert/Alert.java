package tepidarium.alert;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * An alert: a condition that needs a person's attention. States after ANSI/ISA-18.2: it is active
 * until it returns, and open until it has returned and has been acknowledged. If it becomes active
 * again before that, limit, times and values are those of the newest excursion.
 *
 * @param limit the limit in force when it was raised, in the unit of the kind
 * @param since the first reading outside
 * @param raisedAt when the on-delay ended, event time
 * @param returnedAt null while active
 * @param acknowledgedAt null until acknowledged
 * @param shelvedUntil end of the shelving; null if not shelved
 * @param latest the newest value
 * @param worst the value furthest outside
 * @param extra attributes that not every alert has
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
    double worst,
    Extra extra) {

  /**
   * Attributes that not every alert has.
   *
   * @param shelvedBy who shelved it; null if not shelved
   * @param detail the reasons in English, or what an earlier version wrote; null if none
   * @param reasons what shows it; empty where the value says all
   * @param trend temperature, its rate and its steady value; only for forecast kinds
   * @param forecastAt predicted time of crossing the limit; only for forecast kinds
   * @param foundLate whether it was found only in late readings; such an alert is never announced
   *     and never open
   */
  public record Extra(
      Priority priority,
      @Nullable String shelvedBy,
      @Nullable String detail,
      List<AlertReason> reasons,
      @Nullable Trend trend,
      @Nullable Instant forecastAt,
      boolean foundLate) {
    static Extra of(Priority priority, Observation observation) {
      return new Extra(
          priority,
          null,
          AlertReason.words(observation.reasons()),
          observation.reasons(),
          observation.trend(),
          observation.forecastAt(),
          false);
    }
  }

  static Alert raised(
      long id, AlertKey key, AlertRule rule, Condition condition, Observation observation) {
    Instant since = condition.since() == null ? observation.at() : condition.since();
    return new Alert(
        id,
        key.container(),
        key.kind(),
        rule.rule().limit().value(),
        since,
        observation.at(),
        null,
        null,
        null,
        null,
        observation.value(),
        condition.worst(),
        Extra.of(rule.priority(), observation));
  }

  /** Creates an alert found in late readings. */
  static Alert foundLate(long id, AlertKey key, AlertRule rule, PastExcursion past) {
    return new Alert(
        id,
        key.container(),
        key.kind(),
        rule.rule().limit().value(),
        past.since(),
        past.raisedAt(),
        past.endedAt(),
        null,
        null,
        null,
        past.worst(),
        past.worst(),
        new Extra(rule.priority(), null, null, List.of(), null, null, true));
  }

  public AlertKey key() {
    return new AlertKey(container, kind);
  }

  public Priority priority() {
    return extra.priority();
  }

  public @Nullable String shelvedBy() {
    return extra.shelvedBy();
  }

  public @Nullable String detail() {
    return extra.detail();
  }

  public List<AlertReason> reasons() {
    return extra.reasons();
  }

  public @Nullable Trend trend() {
    return extra.trend();
  }

  public @Nullable Instant forecastAt() {
    return extra.forecastAt();
  }

  public boolean foundLate() {
    return extra.foundLate();
  }

  public boolean active() {
    return returnedAt == null;
  }

  public boolean acknowledged() {
    return acknowledgedAt != null;
  }

  public boolean open() {
    return !foundLate() && (active() || !acknowledged());
  }

  public boolean shelvedAt(Instant now) {
    return shelvedUntil != null && now.isBefore(shelvedUntil);
  }

  Alert observed(Rule rule, Observation observation) {
    boolean isSaid = !observation.reasons().isEmpty();
    Extra updated =
        new Extra(
            priority(),
            shelvedBy(),
            isSaid ? AlertReason.words(observation.reasons()) : detail(),
            isSaid ? observation.reasons() : reasons(),
            observation.trend() == null ? trend() : observation.trend(),
            observation.forecastAt(),
            foundLate());
    return new Editor()
        .extra(updated)
        .values(observation.value(), rule.worse(worst, observation.value()))
        .alert();
  }

  /** Updates the worst value. */
  Alert withWorst(Rule rule, double value) {
    return new Editor().values(latest, rule.worse(worst, value)).alert();
  }

  Alert returned(Instant at) {
    return new Editor().returned(at).alert();
  }

  /**
   * Returns the alert after it became active again before its return was acknowledged. Limit, times
   * and values are those of the present excursion. Shelving continues.
   */
  Alert raisedAgain(AlertRule rule, Condition condition, Observation observation) {
    Alert again = raised(id, key(), rule, condition, observation);
    String by = shelvedBy();
    return shelvedUntil == null || by == null ? again : again.shelved(shelvedUntil, by);
  }

  /** This excursion as the reason of the next one, before which it was not acknowledged. */
  AlertReason asBefore() {
    boolean isMeasured = kind != AlertKind.SILENT && kind != AlertKind.FAULTY && !kind.isForecast();
    return AlertReason.Code.BEFORE.with(
        since, returnedAt, isMeasured ? worst : null, isMeasured ? kind.unit() : null);
  }

  Alert acknowledged(Instant at, String by) {
    return new Editor().acknowledged(at, by).alert();
  }

  Alert shelved(Instant until, String by) {
    return new Editor().shelved(until, by).alert();
  }

  Alert unshelved() {
    return new Editor().shelved(null, null).alert();
  }

  /** Extends the alert to an earlier start or a later end. */
  Alert stretched(Rule rule, PastExcursion past) {
    Editor editor = new Editor().values(latest, rule.worse(worst, past.worst()));
    if (past.since().isBefore(since)) {
      editor.began(past.since(), past.raisedAt());
    }
    if (returnedAt != null && past.endedAt().isAfter(returnedAt)) {
      editor.returned(past.endedAt());
    }
    return editor.alert();
  }

  /** A copy with some parts changed. */
  private final class Editor {
    private Instant newSince = since;
    private Instant newRaisedAt = raisedAt;
    private @Nullable Instant newReturnedAt = returnedAt;
    private @Nullable Instant newAcknowledgedAt = acknowledgedAt;
    private @Nullable String newAcknowledgedBy = acknowledgedBy;
    private @Nullable Instant newShelvedUntil = shelvedUntil;
    private double newLatest = latest;
    private double newWorst = worst;
    private Extra newExtra = extra;

    Editor began(Instant at, Instant raised) {
      newSince = at;
      newRaisedAt = raised;
      return this;
    }

    Editor returned(@Nullable Instant at) {
      newReturnedAt = at;
      return this;
    }

    Editor acknowledged(Instant at, String by) {
      newAcknowledgedAt = at;
      newAcknowledgedBy = by;
      return this;
    }

    Editor shelved(@Nullable Instant until, @Nullable String by) {
      newShelvedUntil = until;
      return extra(
          new Extra(priority(), by, detail(), reasons(), trend(), forecastAt(), foundLate()));
    }

    Editor values(double newest, double furthest) {
      newLatest = newest;
      newWorst = furthest;
      return this;
    }

    Editor extra(Extra changed) {
      newExtra = changed;
      return this;
    }

    Alert alert() {
      return new Alert(
          id,
          container,
          kind,
          limit,
          newSince,
          newRaisedAt,
          newReturnedAt,
          newAcknowledgedAt,
          newAcknowledgedBy,
          newShelvedUntil,
          newLatest,
          newWorst,
          newExtra);
    }
  }
}
