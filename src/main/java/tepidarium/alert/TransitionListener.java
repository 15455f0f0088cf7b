package tepidarium.alert;

import org.jspecify.annotations.Nullable;

/**
 * Told of each transition of an alert, once, after it is durable, on the thread that watches; must
 * not wait. A process that ends between the two tells nobody: who must not miss one keeps the
 * number of the last that it dealt with and asks {@link AlertStore#transitionsAfter} at its start.
 */
@FunctionalInterface
public interface TransitionListener {
  /**
   * An alert has changed its state.
   *
   * @param before null for an alert that is new
   */
  void changed(@Nullable Alert before, Alert after, Transition transition);
}
