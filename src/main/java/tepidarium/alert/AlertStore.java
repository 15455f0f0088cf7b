package tepidarium.alert;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/**
 * Keeps alerts, their transitions, and where each condition stands. Each method that writes is one
 * transaction and has reached the disk when it returns. What concerns a container that is no more
 * is dropped.
 */
public interface AlertStore {
  /**
   * Records a transition, with the alert as it is after it and the condition that led to it.
   *
   * @param after null where no alert is open
   * @param condition null where it plays no part
   * @return the transition with its number
   */
  Transition record(@Nullable Alert after, @Nullable Condition condition, Transition transition);

  /** Saves what moved without a transition. */
  void save(Collection<Alert> alerts, Map<AlertKey, Condition> conditions);

  /** Those that are active or not acknowledged, oldest first; none that were found late. */
  List<Alert> open();

  /** The newest ones, open or not, newest first; none that were found late. */
  List<Alert> newest(int most);

  /** All that the filter takes, newest first, those found late too. */
  List<Alert> history(AlertFilter filter);

  Optional<Alert> alert(long id);

  /** The alerts of one kind in one container that lasted into the span, newest first. */
  List<Alert> overlapping(AlertKey key, Span span);

  /** The transitions of one alert, in their order. */
  List<Transition> transitions(long alertId);

  /** When kinds of alert of this container went out of service and came back, newest first. */
  List<Transition> serviceChanges(ContainerId container, int most);

  /** Transitions of alerts with a higher number, in their order. */
  List<Transition> transitionsAfter(long transitionId, int most);

  Map<AlertKey, Condition> conditions();

  /**
   * Those raised before the end of the span and not returned before its start, by when raised; none
   * that were found late.
   */
  List<Alert> within(Span span);

  /** The highest id ever given to an alert, to one of a forgotten container too; 0 for none. */
  long lastId();
}
