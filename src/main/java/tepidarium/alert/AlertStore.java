package tepidarium.alert;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/**
 * Stores alerts, their transitions and the state of each condition. Each write is one transaction
 * and is durable when the method returns. Data of deleted containers is dropped.
 */
public interface AlertStore {
  /**
   * Records a transition together with the resulting alert and the condition that caused it.
   *
   * @param after the alert after the transition; null if none is open
   * @param condition the condition after the transition; null if it is unchanged
   * @return the transition with its assigned number
   */
  Transition record(@Nullable Alert after, @Nullable Condition condition, Transition transition);

  /** Saves alerts and conditions that changed without a transition. */
  void save(Collection<Alert> alerts, Map<AlertKey, Condition> conditions);

  /** Alerts that are active or not acknowledged, oldest first; without alerts found late. */
  List<Alert> open();

  /** The newest alerts, open or closed, newest first; without alerts found late. */
  List<Alert> newest(int most);

  /** The alerts that match the filter, newest first; includes alerts found late. */
  List<Alert> history(AlertFilter filter);

  Optional<Alert> alert(long id);

  /** The alerts of one kind in one container that overlap the span, newest first. */
  List<Alert> overlapping(AlertKey key, Span span);

  /** The transitions of one alert, in order. */
  List<Transition> transitions(long alertId);

  /** The container's transitions out of service and back in service, newest first. */
  List<Transition> serviceChanges(ContainerId container, int most);

  /** Transitions with a higher number than the given one, in order. */
  List<Transition> transitionsAfter(long transitionId, int most);

  Map<AlertKey, Condition> conditions();

  /**
   * Each raising after which an alert was active in the span, ascending by time; an alert that
   * became active again is there several times. Without alerts found late.
   */
  List<RaisedAlert> raised(Span span);

  /** The highest alert id ever assigned, including alerts of deleted containers; 0 for none. */
  long lastId();
}
