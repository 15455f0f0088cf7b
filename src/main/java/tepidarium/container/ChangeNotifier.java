package tepidarium.container;

import java.util.List;
import java.util.Queue;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Semaphore;

/**
 * Calls the listeners of the {@link Register} in the order of its changes, one call at a time and
 * without a lock of the register. Thread-safe.
 */
final class ChangeNotifier {
  private final List<Register.Listener> listeners = new CopyOnWriteArrayList<>();
  private final Queue<Set<ContainerId>> changes = new ConcurrentLinkedQueue<>();

  /** Held by the thread that calls the listeners. */
  private final Semaphore calling = new Semaphore(1);

  void listen(Register.Listener listener) {
    listeners.add(listener);
  }

  /** Adds a change. Call it under the lock of the register, which keeps the order. */
  void add(Set<ContainerId> touched) {
    changes.add(touched);
  }

  /**
   * Calls the listeners for all changes that were added. If another thread is already calling them,
   * that thread also handles these. Call it without a lock.
   */
  void callListeners() {
    while (!changes.isEmpty() && calling.tryAcquire()) {
      try {
        for (Set<ContainerId> next = changes.poll(); next != null; next = changes.poll()) {
          Set<ContainerId> touched = next;
          listeners.forEach(listener -> listener.changed(touched));
        }
      } finally {
        calling.release();
      }
    }
  }
}
