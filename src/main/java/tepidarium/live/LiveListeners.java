package tepidarium.live;

import java.util.List;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.Transition;
import tepidarium.alert.TransitionListener;
import tepidarium.container.ContainerId;
import tepidarium.reading.SensorId;

/**
 * The listeners for changes of containers, sensors and alerts. Listeners may be added by any
 * thread; the watch thread calls them.
 */
final class LiveListeners {
  private static final Logger LOG = LoggerFactory.getLogger(LiveListeners.class);

  private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();
  private final List<TransitionListener> transitionListeners = new CopyOnWriteArrayList<>();

  void add(LiveListener listener) {
    listeners.add(listener);
  }

  void add(TransitionListener listener) {
    transitionListeners.add(listener);
  }

  void containersChanged(Set<ContainerId> containers) {
    for (ContainerId id : containers) {
      listeners.forEach(listener -> listener.containerChanged(id));
    }
  }

  void sensorsHeard(Set<SensorId> sensors) {
    for (SensorId sensor : sensors) {
      listeners.forEach(listener -> listener.sensorHeard(sensor));
    }
  }

  void alertChanged(@Nullable Alert before, Alert after, Transition transition) {
    for (TransitionListener listener : transitionListeners) {
      try {
        listener.changed(before, after, transition);
      } catch (RuntimeException e) {
        // The transition is stored, so the listener can query it later.
        LOG.error("a listener for alert transitions threw an unexpected exception", e);
      }
    }
    if (!after.foundLate()) {
      listeners.forEach(listener -> listener.alertChanged(after));
      containersChanged(Set.of(after.container()));
    }
  }
}
