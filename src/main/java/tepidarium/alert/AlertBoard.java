package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
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
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Transition.What;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/**
 * All conditions and open alerts, and the one place where an alert changes its state. One thread
 * changes it; any may read. Every transition reaches the store, together with the condition that
 * led to it, before the listener hears of it; what moves without a transition is saved by the tick.
 * So a process that ends at any moment leaves a state from which the readings since then, judged
 * again, lead to the same alerts, none of them twice.
 */
public final class AlertBoard {
  private final AlertStore store;
  private final AlertRules rules;
  private final Duration maxGap;
  private final TransitionListener listener;
  private final Map<AlertKey, Condition> conditions = new ConcurrentHashMap<>();
  private final Map<AlertKey, Alert> open = new ConcurrentHashMap<>();
  private final Set<AlertKey> unsaved = new HashSet<>();
  private long lastId;

  /**
   * Takes up where the store left off.
   *
   * @param maxGap readings further apart are not one stretch
   * @param listener told of every transition of an alert, on the changing thread
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
   * Takes in one value of a container, or a sign worked out from its readings. One that is older
   * than the newest so far changes nothing: a late reading is history, not news.
   *
   * @param now when this service took note
   * @return false when it came too late to be judged
   */
  public boolean observe(ContainerId container, Band band, Sign sign, Instant now) {
    return observe(new AlertKey(container, sign.kind()), band, sign, sign.at(), now);
  }

  /**
   * Takes in when the container was last heard, as the clock goes on.
   *
   * @param lastHeard of the sensor in it that has been silent longest
   */
  public void observeSilence(ContainerId container, Band band, Instant now, Instant lastHeard) {
    double minutes = Duration.between(lastHeard, now).toMillis() / 60_000.0;
    Sign sign = Sign.value(AlertKind.SILENT, now, minutes);
    observe(new AlertKey(container, AlertKind.SILENT), band, sign, lastHeard, now);
  }

  private boolean observe(AlertKey key, Band band, Sign sign, Instant began, Instant now) {
    Condition before = conditions.getOrDefault(key, Condition.UNKNOWN);
    if (before.lastAt() != null && sign.at().isBefore(before.lastAt())) {
      return false;
    }
    if (!rules.inService(key) || hasComeTrue(key)) {
      return true;
    }
    AlertRule rule = rules.effective(key, band);
    Condition after =
        before.after(rule.rule(), maxGap, sign.at(), sign.value()).since(before, began);
    conditions.put(key, after);
    if (key.kind() != AlertKind.SILENT && (after.since() != null || before.since() != null)) {
      unsaved.add(key);
    }
    if (after.active()) {
      holdActive(key, rule, after, before.active(), sign, now);
    } else {
      // Asked also where the condition was not active: the store may have failed the first time.
      giveBack(key, sign.at(), now, null);
    }
    return true;
  }

  /** What was foreseen has happened: the forecast has nothing to add. */
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
      AlertKey key, AlertRule rule, Condition now, boolean wasActive, Sign sign, Instant noted) {
    Alert alert = open.get(key);
    if (alert != null && wasActive) {
      open.put(key, alert.withSign(rule.rule(), sign));
      return;
    }
    Alert raised =
        alert == null
            ? Alert.raised(++lastId, key, rule, now, sign)
            : alert.raisedAgain().withWorst(rule.rule(), now.worst()).withSign(rule.rule(), sign);
    change(alert, raised, transition(raised, What.RAISED, sign.at(), noted, null, sign.detail()));
    supersede(key, sign.at(), noted);
  }

  /** The forecast of what has just been raised returns at once. */
  private void supersede(AlertKey key, Instant at, Instant now) {
    AlertKind forecast =
        switch (key.kind()) {
          case COLD -> AlertKind.HEADING_COLD;
          case HOT -> AlertKind.HEADING_HOT;
          default -> null;
        };
    if (forecast != null) {
      AlertKey foreseen = new AlertKey(key.container(), forecast);
      drop(foreseen, at, now, "it has come true: see the alert " + key.kind().key());
    }
  }

  private void giveBack(AlertKey key, Instant at, Instant now, @Nullable String note) {
    Alert alert = open.get(key);
    if (alert != null && alert.active()) {
      Alert returned = alert.returned(at);
      change(alert, returned, transition(returned, What.RETURNED, at, now, null, note));
    }
  }

  /** Forgets a condition; its alert returns. */
  private void drop(AlertKey key, Instant at, Instant now, @Nullable String note) {
    if (conditions.getOrDefault(key, Condition.UNKNOWN).since() != null) {
      conditions.put(key, Condition.insideAt(at));
      unsaved.add(key);
    }
    giveBack(key, at, now, note);
  }

  /** Forgets the conditions of a container that nothing observes any more; its alerts return. */
  public void unobserved(ContainerId container, Instant now) {
    for (AlertKind kind : AlertKind.values()) {
      AlertKey key = new AlertKey(container, kind);
      if (conditions.containsKey(key)) {
        drop(key, now, now, "no sensor is placed in it any more");
        save();
        conditions.remove(key);
      }
    }
  }

  /**
   * Forgets what conditions have seen after the instant, which a clock that was set back has not
   * reached yet, so that they are judged again. Raises and returns nothing.
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

  /** Forgets a container that is no more, with its alerts. */
  public void forget(ContainerId container) {
    rules.forget(container);
    for (AlertKind kind : AlertKind.values()) {
      AlertKey key = new AlertKey(container, kind);
      conditions.remove(key);
      open.remove(key);
      unsaved.remove(key);
    }
  }

  /** Ends shelving that has run out and saves what moved without a transition. */
  public void tick(Instant now) {
    for (Alert alert : open.values()) {
      if (alert.shelvedUntil() != null && !alert.shelvedAt(now)) {
        unshelve(alert, null, now, "its time was over");
      }
    }
    save();
  }

  /** Saves what moved without a transition. */
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
   * Notes that a person has seen the alert.
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
   * Puts the alert aside for a time; it comes back by itself.
   *
   * @param reason in that person's words; null where none was given
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Instant until, String by, @Nullable String reason, Instant now) {
    Alert alert = get(id);
    return change(alert, alert.shelved(until, by), What.SHELVED, now, by, reason);
  }

  /**
   * Takes the alert back from the shelf; one that is not there stays as it is.
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
   * Changes what holds for kinds of alert in one container. A kind that goes out of service raises
   * nothing until it is back; its open alert is closed.
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
      record(null, new Transition(0, null, key, What.IN_SERVICE, now, now, by, reason));
      rules.service(key, null);
      return;
    }
    rules.service(key, new OutOfService(now, by, reason));
    conditions.remove(key);
    Alert alert = open.get(key);
    if (alert == null) {
      record(null, new Transition(0, null, key, What.OUT_OF_SERVICE, now, now, by, reason));
    } else {
      Alert closed = alert.active() ? alert.returned(now) : alert;
      Alert seen = closed.acknowledged() ? closed : closed.acknowledged(now, by);
      change(alert, seen, What.OUT_OF_SERVICE, now, by, reason);
    }
  }

  /**
   * Marks in the history an excursion that readings show which came too late to announce it. One
   * that belongs to a known alert is part of it: it may show that the alert began earlier.
   *
   * @param late when those readings were measured
   */
  public void foundLate(AlertKey key, Band band, PastExcursion past, Span late, Instant now) {
    if (!rules.inService(key)) {
      return;
    }
    AlertRule rule = rules.effective(key, band);
    Span reach = new Span(past.since(), past.endedAt().plusMillis(1));
    List<Alert> known = store.overlapping(key, reach);
    if (known.isEmpty()) {
      Alert found = Alert.foundLate(++lastId, key, rule, past);
      change(null, found, foundLate(found, past, now, null));
      return;
    }
    Alert alert = newestOf(known, open.get(key));
    boolean earlier = past.since().isBefore(alert.since()) && !past.since().isBefore(late.from());
    Alert stretched = alert.stretched(rule.rule(), past);
    if (earlier) {
      String note = "it began earlier than was known then, at " + past.since();
      change(alert, stretched, foundLate(stretched, past, now, note));
    } else if (alert.foundLate() && !stretched.equals(alert)) {
      store.save(List.of(stretched), Map.of());
    }
  }

  /** The open one as it is now, where it is among those known to the store. */
  private static Alert newestOf(List<Alert> known, @Nullable Alert open) {
    boolean among = open != null && known.stream().anyMatch(one -> one.id() == open.id());
    return among ? Objects.requireNonNull(open) : known.get(0);
  }

  private static Transition foundLate(
      Alert alert, PastExcursion past, Instant now, @Nullable String note) {
    return transition(alert, What.FOUND_LATE, past.raisedAt(), now, null, note);
  }

  private static Transition transition(
      Alert alert,
      What what,
      Instant at,
      Instant recordedAt,
      @Nullable String by,
      @Nullable String note) {
    return Transition.of(alert, what, at, recordedAt, by, note);
  }

  private Alert get(long id) {
    return open.values().stream()
        .filter(alert -> alert.id() == id)
        .findFirst()
        .orElseThrow(() -> new NoSuchElementException("there is no open alert " + id));
  }

  private Alert change(
      Alert before,
      Alert after,
      What what,
      Instant now,
      @Nullable String by,
      @Nullable String note) {
    return change(before, after, transition(after, what, now, now, by, note));
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
    List<Alert> alerts = new ArrayList<>(open.values());
    alerts.sort(Comparator.comparing(Alert::raisedAt).thenComparing(Alert::id));
    return alerts;
  }

  /** The open alerts of one container, oldest first. */
  public List<Alert> open(ContainerId container) {
    return open().stream().filter(alert -> alert.container().equals(container)).toList();
  }

  /** Where the container stands against each limit. */
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
