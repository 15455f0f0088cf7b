package tepidarium.alert;

import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/** Stores alerts and decisions in memory, for fast tests. Thread-safe, as the real store is. */
public final class MemoryAlerts implements AlertStore, AlertRuleStore {
  private final ConcurrentSkipListMap<Long, Alert> alerts = new ConcurrentSkipListMap<>();
  private final List<Transition> transitions = new CopyOnWriteArrayList<>();
  private final Map<AlertKey, Condition> conditions = new ConcurrentHashMap<>();
  private final Map<AlertKey, Decision> decisions = new ConcurrentHashMap<>();

  @Override
  public Transition record(
      @Nullable Alert after, @Nullable Condition condition, Transition transition) {
    if (after != null) {
      alerts.put(after.id(), after);
    }
    if (condition != null) {
      conditions.put(transition.key(), condition);
    }
    Transition numbered = transition.numbered(transitions.size() + 1);
    transitions.add(numbered);
    return numbered;
  }

  @Override
  public void save(Collection<Alert> moved, Map<AlertKey, Condition> movedConditions) {
    moved.forEach(alert -> alerts.put(alert.id(), alert));
    conditions.putAll(movedConditions);
  }

  /** Every transition so far. */
  List<Transition> transitions() {
    return transitions;
  }

  private Stream<Alert> newestFirst() {
    return alerts.descendingMap().values().stream();
  }

  @Override
  public List<Alert> open() {
    return alerts.values().stream().filter(Alert::open).toList();
  }

  @Override
  public List<Alert> newest(int most) {
    return newestFirst().filter(alert -> !alert.foundLate()).limit(most).toList();
  }

  @Override
  public List<Alert> history(AlertFilter filter) {
    return newestFirst()
        .filter(filter::takes)
        .sorted(Comparator.comparing(Alert::raisedAt).reversed())
        .limit(filter.most())
        .toList();
  }

  @Override
  public Optional<Alert> alert(long id) {
    return Optional.ofNullable(alerts.get(id));
  }

  @Override
  public List<Alert> overlapping(AlertKey key, Span span) {
    return newestFirst()
        .filter(alert -> alert.key().equals(key) && alert.since().isBefore(span.to()))
        .filter(a -> a.returnedAt() == null || !a.returnedAt().isBefore(span.from()))
        .toList();
  }

  @Override
  public List<Transition> transitions(long alertId) {
    return transitions.stream()
        .filter(one -> one.alertId() != null && one.alertId() == alertId)
        .toList();
  }

  @Override
  public List<Transition> serviceChanges(ContainerId container, int most) {
    return transitions.stream()
        .filter(one -> one.key().container().equals(container))
        .filter(
            one ->
                one.what() == Transition.What.OUT_OF_SERVICE
                    || one.what() == Transition.What.IN_SERVICE)
        .toList();
  }

  @Override
  public List<Transition> transitionsAfter(long transitionId, int most) {
    return transitions.stream().filter(one -> one.id() > transitionId).limit(most).toList();
  }

  @Override
  public Map<AlertKey, Condition> conditions() {
    return Map.copyOf(conditions);
  }

  @Override
  public List<RaisedAlert> raised(Span span) {
    return transitions.stream()
        .filter(one -> one.what() == Transition.What.RAISED && one.at().isBefore(span.to()))
        .map(one -> new RaisedAlert(one.key().container(), one.key().kind(), one.at(), end(one)))
        .filter(one -> one.returnedAt() == null || !one.returnedAt().isBefore(span.from()))
        .toList();
  }

  private @Nullable Instant end(Transition raised) {
    return transitions.stream()
        .filter(one -> one.id() > raised.id() && Objects.equals(one.alertId(), raised.alertId()))
        .filter(
            one ->
                one.what() == Transition.What.RETURNED
                    || one.what() == Transition.What.OUT_OF_SERVICE)
        .map(Transition::at)
        .findFirst()
        .orElse(null);
  }

  @Override
  public long lastId() {
    return alerts.isEmpty() ? 0 : alerts.lastKey();
  }

  @Override
  public Map<AlertKey, Decision> decisions() {
    return Map.copyOf(decisions);
  }

  @Override
  public void put(AlertKey key, Decision decision) {
    decisions.put(key, decision);
  }
}
