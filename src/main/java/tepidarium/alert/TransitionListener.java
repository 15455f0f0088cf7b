package tepidarium.alert;

import org.jspecify.annotations.Nullable;

/**
 * Receives each transition of an alert once, after it is durable, on the watch thread.
 * Implementations must not block. If the process ends after the commit and before the call, the
 * transition is not delivered. A listener that must not miss any stores the number of the last one
 * it handled and queries {@link AlertStore#transitionsAfter} at start.
 */
@FunctionalInterface
public interface TransitionListener {
  /**
   * Called after an alert has changed its state.
   *
   * @param before the alert before the change; null for a new alert
   */
  void changed(@Nullable Alert before, Alert after, Transition transition);
}
