package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Transition.What;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/**
 * Holds all conditions and open alerts, and makes every state change of an alert. One thread
 * changes it; any thread may read. Each transition is stored together with its condition before the
 * listener is called. Condition changes without a transition are saved by {@link #tick}. If the
 * process ends at any moment, re-evaluating the readings since the last save raises the same
 * alerts, without duplicates.
 */
public final class AlertBoard {
  private static final Comparator<Alert> OLDEST_FIRST =
      Comparator.comparing(Alert::raisedAt).thenComparing(Alert::id);

  private final AlertStore store;
  private final AlertRules rules;
  private final Duration maxGap;
  private final TransitionListener listener;
  private final Map<AlertKey, Condition> conditions = new ConcurrentHashMap<>();
  private final Map<AlertKey, Alert> open = new ConcurrentHashMap<>();
  private final Set<AlertKey> unsaved = new HashSet<>();
  private long lastId;

  /**
   * Loads the stored state.
   *
   * @param maxGap readings further apart than this do not count as continuous
   * @param listener called for every transition, on the changing thread
   */
  public AlertBoard(
      AlertStore store, AlertRules rules, Duration maxGap, TransitionListener listener) {
    this.store = store;
    this.rules = rules;
    this.maxGap = maxGap;
    this.listener = listener;
    this.lastId = store.lastId();
    conditions.putAll(store.conditions());
    for (Alert alert : store.open()) {
      open.put(alert.key(), alert);
      if (alert.active()) {
        conditions.putIfAbsent(
            alert.key(), Condition.activeSince(alert.since(), alert.raisedAt(), alert.worst()));
      }
    }
  }

  /**
   * Evaluates a value of a container, or a figure computed from its readings. An observation older
   * than the newest one is ignored; {@link #foundLate} handles late readings.
   *
   * @param now when the service evaluates it
   * @return false if it was ignored because it is too old
   */
  public boolean observe(ContainerId container, Band band, Observation observation, Instant now) {
    return observe(
        new AlertKey(container, observation.kind()), band, observation, observation.at(), now);
  }

  /**
   * Evaluates the silence of a container's sensors; call it regularly.
   *
   * @param lastHeard arrival time of the last message of the sensor that has been silent longest
   */
  public void observeSilence(ContainerId container, Band band, Instant now, Instant lastHeard) {
    double minutes = Duration.between(lastHeard, now).toMillis() / 60_000.0;
    Observation observation = Observation.value(AlertKind.SILENT, now, minutes);
    observe(new AlertKey(container, AlertKind.SILENT), band, observation, lastHeard, now);
  }

  private boolean observe(
      AlertKey key, Band band, Observation observation, Instant began, Instant now) {
    Condition before = conditions.getOrDefault(key, Condition.UNKNOWN);
    if (before.lastAt() != null && observation.at().isBefore(before.lastAt())) {
      return false;
    }
    if (!rules.inService(key) || hasComeTrue(key)) {
      return true;
    }
    AlertRule rule = rules.effective(key, band);
    Condition after =
        before
            .after(rule.rule(), maxGap, observation.at(), observation.value())
            .since(before, began);
    conditions.put(key, after);
    if (key.kind() != AlertKind.SILENT && (after.since() != null || before.since() != null)) {
      unsaved.add(key);
    }
    if (after.active()) {
      holdActive(key, rule, after, before.active(), observation, now);
    } else {
      // Also checked if the condition was not active, because the store may have failed before.
      giveBack(key, observation.at(), now, List.of());
    }
    return true;
  }

  /** Whether the forecast event has happened, so the forecast alert is obsolete. */
  private boolean hasComeTrue(AlertKey key) {
    AlertKind foreseen =
        switch (key.kind()) {
          case HEADING_COLD -> AlertKind.COLD;
          case HEADING_HOT -> AlertKind.HOT;
          default -> null;
        };
    return foreseen != null
        && conditions
            .getOrDefault(new AlertKey(key.container(), foreseen), Condition.UNKNOWN)
            .active();
  }

  private void holdActive(
      AlertKey key,
      AlertRule rule,
      Condition condition,
      boolean wasActive,
      Observation observation,
      Instant now) {
    Alert alert = open.get(key);
    if (alert != null && wasActive) {
      open.put(key, alert.observed(rule.rule(), observation));
      return;
    }
    Alert raised =
        alert == null
            ? Alert.raised(++lastId, key, rule, condition, observation)
            : alert.raisedAgain(rule, condition, observation);
    List<AlertReason> reasons = new ArrayList<>(observation.reasons());
    if (alert != null) {
      reasons.add(alert.asBefore());
    }
    change(alert, raised, Transition.of(raised, What.RAISED, observation.at(), now, reasons));
    supersede(key, observation.at(), now);
  }

  /** Ends the forecast alert when the alert that it forecast has been raised. */
  private void supersede(AlertKey key, Instant at, Instant now) {
    AlertKind forecast =
        switch (key.kind()) {
          case COLD -> AlertKind.HEADING_COLD;
          case HOT -> AlertKind.HEADING_HOT;
          default -> null;
        };
    if (forecast != null) {
      AlertKey foreseen = new AlertKey(key.container(), forecast);
      drop(foreseen, at, now, AlertReason.Code.CAME_TRUE.with(key.kind().key()));
    }
  }

  private void giveBack(AlertKey key, Instant at, Instant now, List<AlertReason> reasons) {
    Alert alert = open.get(key);
    if (alert != null && alert.active()) {
      Alert returned = alert.returned(at);
      change(alert, returned, Transition.of(returned, What.RETURNED, at, now, reasons));
    }
  }

  /** Removes a condition; its alert returns. */
  private void drop(AlertKey key, Instant at, Instant now, AlertReason reason) {
    if (conditions.getOrDefault(key, Condition.UNKNOWN).since() != null) {
      conditions.put(key, Condition.insideAt(at));
      unsaved.add(key);
    }
    giveBack(key, at, now, List.of(reason));
  }

  /** Removes the conditions of a container without a sensor; its alerts return. */
  public void unobserved(ContainerId container, Instant now) {
    for (AlertKind kind : AlertKind.values()) {
      AlertKey key = new AlertKey(container, kind);
      if (conditions.containsKey(key)) {
        drop(key, now, now, AlertReason.Code.NO_SENSOR.with());
        save();
        conditions.remove(key);
      }
    }
  }

  /**
   * Resets conditions to the instant after the clock was set back, so that later readings are
   * evaluated again. Raises and returns no alerts.
   */
  public void forgetAfter(Instant instant) {
    conditions.replaceAll(
        (key, condition) -> {
          Condition left = condition.forgetAfter(instant);
          if (!left.equals(condition)) {
            unsaved.add(key);
          }
          return left;
        });
  }

  /** Removes a deleted container with its alerts. */
  public void forget(ContainerId container) {
    rules.forget(container);
    for (AlertKind kind : AlertKind.values()) {
      AlertKey key = new AlertKey(container, kind);
      conditions.remove(key);
      open.remove(key);
      unsaved.remove(key);
    }
  }

  /** Ends expired shelving, and saves condition changes that made no transition. */
  public void tick(Instant now) {
    for (Alert alert : open.values()) {
      if (alert.shelvedUntil() != null && !alert.shelvedAt(now)) {
        unshelve(alert, null, now, "the shelving time has ended");
      }
    }
    save();
  }

  /** Saves condition changes that made no transition. */
  public void save() {
    if (unsaved.isEmpty()) {
      return;
    }
    Map<AlertKey, Condition> moved = new HashMap<>();
    List<Alert> alerts = new ArrayList<>();
    for (AlertKey key : unsaved) {
      moved.put(key, conditions.getOrDefault(key, Condition.UNKNOWN));
      Optional.ofNullable(open.get(key)).ifPresent(alerts::add);
    }
    store.save(alerts, moved);
    unsaved.clear();
  }

  /**
   * Acknowledges an alert.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert acknowledge(long id, String by, Instant now) {
    Alert alert = get(id);
    if (alert.acknowledged()) {
      return alert;
    }
    return change(alert, alert.acknowledged(now, by), What.ACKNOWLEDGED, now, by, null);
  }

  /**
   * Shelves an alert until an instant; the shelving then ends by itself.
   *
   * @param reason in that person's words; null where none was given
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Instant until, String by, @Nullable String reason, Instant now) {
    Alert alert = get(id);
    return change(alert, alert.shelved(until, by), What.SHELVED, now, by, reason);
  }

  /**
   * Ends the shelving of an alert; does nothing if it is not shelved.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert unshelve(long id, String by, Instant now) {
    Alert alert = get(id);
    return alert.shelvedUntil() == null ? alert : unshelve(alert, by, now, null);
  }

  private Alert unshelve(Alert alert, @Nullable String by, Instant now, @Nullable String note) {
    return change(alert, alert.unshelved(), What.UNSHELVED, now, by, note);
  }

  /**
   * Changes the rules of alert kinds in one container. A kind that is out of service raises no
   * alerts; its open alert is closed.
   *
   * @param by who changes it
   * @param reason in that person's words; null where none was given
   */
  public void change(
      ContainerId container,
      Map<AlertKind, RuleChange> changes,
      String by,
      @Nullable String reason,
      Instant now) {
    changes.forEach(
        (kind, change) -> {
          AlertKey key = new AlertKey(container, kind);
          if (change.override() != null) {
            rules.override(key, change.override());
          }
          if (change.inService() != null && change.inService() != rules.inService(key)) {
            service(key, change.inService(), by, reason, now);
          }
        });
  }

  private void service(AlertKey key, boolean in, String by, @Nullable String reason, Instant now) {
    if (in) {
      conditions.put(key, Condition.insideAt(now));
      record(null, Transition.by(by, null, key, What.IN_SERVICE, now, reason));
      rules.service(key, null);
      return;
    }
    rules.service(key, new OutOfService(now, by, reason));
    conditions.remove(key);
    Alert alert = open.get(key);
    if (alert == null) {
      record(null, Transition.by(by, null, key, What.OUT_OF_SERVICE, now, reason));
    } else {
      Alert closed = alert.active() ? alert.returned(now) : alert;
      Alert seen = closed.acknowledged() ? closed : closed.acknowledged(now, by);
      change(alert, seen, What.OUT_OF_SERVICE, now, by, reason);
    }
  }

  /**
   * Records an excursion found in late readings. It is not announced. If it overlaps a known alert,
   * that alert is extended, for example to an earlier start.
   *
   * @param late the time span of the late readings
   */
  public void foundLate(AlertKey key, Band band, PastExcursion past, Span late, Instant now) {
    if (!rules.inService(key)) {
      return;
    }
    AlertRule rule = rules.effective(key, band);
    Span reach = new Span(past.since(), past.endedAt().plusMillis(1));
    List<Alert> known = store.overlapping(key, reach);
    if (known.isEmpty()) {
      if (store.raised(reach).stream().anyMatch(raised -> raised.key().equals(key))) {
        // An earlier excursion of an alert that has become active again since.
        return;
      }
      Alert found = Alert.foundLate(++lastId, key, rule, past);
      change(null, found, foundLate(found, past, now, List.of()));
      return;
    }
    Alert alert = newestOf(known, open.get(key));
    boolean earlier = past.since().isBefore(alert.since()) && !past.since().isBefore(late.from());
    Alert stretched = alert.stretched(rule.rule(), past);
    if (earlier) {
      AlertReason reason = AlertReason.Code.BEGAN_EARLIER.with(past.since());
      change(alert, stretched, foundLate(stretched, past, now, List.of(reason)));
    } else if (alert.foundLate() && !stretched.equals(alert)) {
      store.save(List.of(stretched), Map.of());
    }
  }

  /**
   * Returns the newest known alert; prefers the current state of the open alert over the stored
   * one.
   */
  private static Alert newestOf(List<Alert> known, @Nullable Alert open) {
    boolean among = open != null && known.stream().anyMatch(one -> one.id() == open.id());
    return among ? Objects.requireNonNull(open) : known.get(0);
  }

  private static Transition foundLate(
      Alert alert, PastExcursion past, Instant now, List<AlertReason> reasons) {
    return Transition.of(alert, What.FOUND_LATE, past.raisedAt(), now, reasons);
  }

  private Alert get(long id) {
    return open.values().stream()
        .filter(alert -> alert.id() == id)
        .findFirst()
        .orElseThrow(() -> new NoSuchElementException("no open alert with id " + id));
  }

  private Alert change(
      Alert before,
      Alert after,
      What what,
      Instant now,
      @Nullable String by,
      @Nullable String note) {
    return change(before, after, Transition.by(by, after, after.key(), what, now, note));
  }

  private Alert change(@Nullable Alert before, Alert after, Transition transition) {
    Transition recorded = record(after, transition);
    if (after.open()) {
      open.put(after.key(), after);
    } else if (Objects.equals(open.get(after.key()), before)) {
      open.remove(after.key());
    }
    listener.changed(before, after, recorded);
    return after;
  }

  private Transition record(@Nullable Alert after, Transition transition) {
    AlertKey key = transition.key();
    boolean late = transition.what() == What.FOUND_LATE;
    Condition condition = late ? null : conditions.getOrDefault(key, Condition.UNKNOWN);
    Transition recorded = store.record(after, condition, transition);
    if (!late) {
      unsaved.remove(key);
    }
    return recorded;
  }

  /** All open alerts, oldest first. */
  public List<Alert> open() {
    return open.values().stream().sorted(OLDEST_FIRST).toList();
  }

  /** The open alerts of one container, oldest first. Looks at no alert of another container. */
  public List<Alert> open(ContainerId container) {
    return Arrays.stream(AlertKind.values())
        .flatMap(kind -> Stream.ofNullable(open.get(new AlertKey(container, kind))))
        .sorted(OLDEST_FIRST)
        .toList();
  }

  /** The state of each limit of the container. */
  public Map<AlertKind, LimitState> states(ContainerId container) {
    Map<AlertKind, LimitState> states = new EnumMap<>(AlertKind.class);
    for (AlertKind kind : AlertKind.values()) {
      Optional<Condition> condition =
          Optional.ofNullable(conditions.get(new AlertKey(container, kind)));
      states.put(kind, condition.map(LimitState::of).orElse(LimitState.UNKNOWN));
    }
    return states;
  }
}
