package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;

/**
 * All conditions and open alerts, and the one place where an alert changes its state. One thread
 * changes it; any may read. Every change of state reaches the store before the listener hears of
 * it.
 */
public final class AlertBoard {
  private record Key(ContainerId container, AlertKind kind) {}

  private final AlertStore store;
  private final Duration maxGap;
  private final Duration silentAfter;
  private final Consumer<Alert> listener;
  private final Map<Key, Condition> conditions = new ConcurrentHashMap<>();
  private final Map<Key, Alert> open = new ConcurrentHashMap<>();
  private final Set<Key> unsaved = new HashSet<>();
  private long lastId;

  /**
   * Takes up where the store left off.
   *
   * @param maxGap readings further apart are not one stretch
   * @param silentAfter how long a sensor may say nothing
   * @param listener told of every change of state, on the changing thread
   */
  public AlertBoard(
      AlertStore store, Duration maxGap, Duration silentAfter, Consumer<Alert> listener) {
    this.store = store;
    this.maxGap = maxGap;
    this.silentAfter = silentAfter;
    this.listener = listener;
    this.lastId = store.lastId();
    for (Alert alert : store.open()) {
      Key key = new Key(alert.container(), alert.kind());
      open.put(key, alert);
      if (alert.active()) {
        conditions.put(key, Condition.activeSince(alert.since(), alert.raisedAt(), alert.worst()));
      }
    }
  }

  /**
   * Takes in one value of a container. One that is older than the newest so far changes nothing: a
   * late reading is history, not news.
   */
  public void observe(ContainerId container, AlertKind kind, Band band, Instant at, double value) {
    observe(new Key(container, kind), band, at, value, at);
  }

  /**
   * Takes in when the container was last heard, as the clock goes on.
   *
   * @param lastHeard of the sensor in it that has been silent longest
   */
  public void observeSilence(ContainerId container, Band band, Instant now, Instant lastHeard) {
    double minutes = Duration.between(lastHeard, now).toMillis() / 60_000.0;
    observe(new Key(container, AlertKind.SILENT), band, now, minutes, lastHeard);
  }

  private void observe(Key key, Band band, Instant at, double value, Instant began) {
    Condition before = conditions.getOrDefault(key, Condition.UNKNOWN);
    if (before.lastAt() != null && at.isBefore(before.lastAt())) {
      return;
    }
    Rule rule = key.kind().rule(key.kind().limit(band, silentAfter));
    Condition after = before.after(rule, maxGap, at, value).since(before, began);
    conditions.put(key, after);
    if (after.active()) {
      holdActive(key, rule, after, before.active(), at, value);
    } else if (before.active()) {
      giveBack(key, at);
    }
  }

  private void holdActive(
      Key key, Rule rule, Condition now, boolean wasActive, Instant at, double value) {
    Alert alert = open.get(key);
    if (alert == null) {
      change(key, Alert.raised(++lastId, key.container(), key.kind(), rule, now, at, value));
    } else if (wasActive) {
      open.put(key, alert.withValue(rule, value));
      unsaved.add(key);
    } else {
      change(key, alert.raisedAgain().withValue(rule, now.worst()).withValue(rule, value));
    }
  }

  private void giveBack(Key key, Instant at) {
    Alert alert = open.get(key);
    if (alert != null && alert.active()) {
      change(key, alert.returned(at));
    }
  }

  /** Forgets the conditions of a container that nothing observes any more; its alerts return. */
  public void unobserved(ContainerId container, Instant now) {
    for (AlertKind kind : AlertKind.values()) {
      Key key = new Key(container, kind);
      if (conditions.remove(key) != null) {
        giveBack(key, now);
      }
    }
  }

  /**
   * Forgets what conditions have seen after the instant, which a clock that was set back has not
   * reached yet, so that they are judged again. Raises and returns nothing.
   */
  public void forgetAfter(Instant instant) {
    conditions.replaceAll((key, condition) -> condition.forgetAfter(instant));
  }

  /** Forgets a container that is no more, with its alerts. */
  public void forget(ContainerId container) {
    for (AlertKind kind : AlertKind.values()) {
      Key key = new Key(container, kind);
      conditions.remove(key);
      open.remove(key);
      unsaved.remove(key);
    }
  }

  /** Ends shelving that has run out and saves what only moved in value. */
  public void tick(Instant now) {
    for (Map.Entry<Key, Alert> entry : open.entrySet()) {
      Alert alert = entry.getValue();
      if (alert.shelvedUntil() != null && !alert.shelvedAt(now)) {
        change(entry.getKey(), alert.shelved(null));
      }
    }
    for (Key key : unsaved) {
      Alert alert = open.get(key);
      if (alert != null) {
        store.put(alert);
      }
    }
    unsaved.clear();
  }

  /**
   * Notes that a person has seen the alert.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert acknowledge(long id, String by, Instant now) {
    Key key = keyOf(id);
    Alert alert = get(key);
    return alert.acknowledged() ? alert : change(key, alert.acknowledged(now, by));
  }

  /**
   * Puts the alert aside for a time; it comes back by itself.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Instant until) {
    Key key = keyOf(id);
    return change(key, get(key).shelved(until));
  }

  private Alert get(Key key) {
    Alert alert = open.get(key);
    if (alert == null) {
      throw new NoSuchElementException("no open alert");
    }
    return alert;
  }

  private Key keyOf(long id) {
    return open.entrySet().stream()
        .filter(entry -> entry.getValue().id() == id)
        .map(Map.Entry::getKey)
        .findFirst()
        .orElseThrow(() -> new NoSuchElementException("there is no open alert " + id));
  }

  private Alert change(Key key, Alert alert) {
    store.put(alert);
    unsaved.remove(key);
    if (alert.open()) {
      open.put(key, alert);
    } else {
      open.remove(key);
    }
    listener.accept(alert);
    return alert;
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
      Optional<Condition> condition = Optional.ofNullable(conditions.get(new Key(container, kind)));
      states.put(kind, condition.map(LimitState::of).orElse(LimitState.UNKNOWN));
    }
    return states;
  }
}
