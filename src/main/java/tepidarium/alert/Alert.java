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
 * @param extra what not every alert has
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
   * What not every alert has.
   *
   * @param shelvedBy who put it aside; null when it is not shelved
   * @param detail more in words; null where the values say all
   * @param forecastAt when the limit will be crossed; only for kinds that foresee
   * @param foundLate whether only readings that came late show it; such an alert was never
   *     announced and is never open
   */
  public record Extra(
      Priority priority,
      @Nullable String shelvedBy,
      @Nullable String detail,
      @Nullable Instant forecastAt,
      boolean foundLate) {
    static Extra of(Priority priority, Sign sign) {
      return new Extra(priority, null, sign.detail(), sign.forecastAt(), false);
    }
  }

  static Alert raised(long id, AlertKey key, AlertRule rule, Condition condition, Sign sign) {
    Instant since = condition.since() == null ? sign.at() : condition.since();
    return new Alert(
        id,
        key.container(),
        key.kind(),
        rule.rule().limit().value(),
        since,
        sign.at(),
        null,
        null,
        null,
        null,
        sign.value(),
        condition.worst(),
        Extra.of(rule.priority(), sign));
  }

  /** One that readings show which came too late to announce it. */
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
        new Extra(rule.priority(), null, null, null, true));
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

  Alert withSign(Rule rule, Sign sign) {
    String words = sign.detail() == null ? detail() : sign.detail();
    Extra told = new Extra(priority(), shelvedBy(), words, sign.forecastAt(), foundLate());
    Alert alert = new Editor().extra(told).alert();
    return alert.withValues(sign.value(), rule.worse(worst, sign.value()));
  }

  /** The same with the worse of its worst value and another. */
  Alert withWorst(Rule rule, double value) {
    return withValues(latest, rule.worse(worst, value));
  }

  private Alert withValues(double newLatest, double newWorst) {
    return new Alert(
        id,
        container,
        kind,
        limit,
        since,
        raisedAt,
        returnedAt,
        acknowledgedAt,
        acknowledgedBy,
        shelvedUntil,
        newLatest,
        newWorst,
        extra);
  }

  Alert returned(Instant at) {
    return new Editor().returned(at).alert();
  }

  /** Active again before anybody had seen that it returned. */
  Alert raisedAgain() {
    return new Editor().returned(null).alert();
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

  /** One that began earlier, or lasted longer, than was known. */
  Alert stretched(Rule rule, PastExcursion past) {
    boolean earlier = past.since().isBefore(since);
    boolean later = returnedAt != null && past.endedAt().isAfter(returnedAt);
    return new Alert(
            id,
            container,
            kind,
            limit,
            earlier ? past.since() : since,
            earlier ? past.raisedAt() : raisedAt,
            later ? past.endedAt() : returnedAt,
            acknowledgedAt,
            acknowledgedBy,
            shelvedUntil,
            latest,
            worst,
            extra)
        .withWorst(rule, past.worst());
  }

  /** Changes some of the parts. */
  private final class Editor {
    private @Nullable Instant newReturnedAt = returnedAt;
    private @Nullable Instant newAcknowledgedAt = acknowledgedAt;
    private @Nullable String newAcknowledgedBy = acknowledgedBy;
    private @Nullable Instant newShelvedUntil = shelvedUntil;
    private Extra newExtra = extra;

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
      return extra(new Extra(priority(), by, detail(), forecastAt(), foundLate()));
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
          since,
          raisedAt,
          newReturnedAt,
          newAcknowledgedAt,
          newAcknowledgedBy,
          newShelvedUntil,
          latest,
          worst,
          newExtra);
    }
  }
}
