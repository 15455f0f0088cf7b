package tepidarium.app;

import java.util.ArrayDeque;
import java.util.Deque;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps the parts of the service that have started, and stops them in the reverse order.
 * Thread-safe.
 */
final class RunningParts implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(RunningParts.class);

  private final Deque<AutoCloseable> parts = new ArrayDeque<>();

  /** Adds a part that has started; returns it. */
  synchronized <T extends AutoCloseable> T add(T part) {
    parts.push(part);
    return part;
  }

  /** Stops every part, the latest first. A part that fails to stop does not prevent the others. */
  @Override
  public synchronized void close() {
    while (!parts.isEmpty()) {
      AutoCloseable part = parts.pop();
      try {
        part.close();
      } catch (Exception e) {
        LOG.warn("{} did not stop cleanly: {}", part.getClass().getSimpleName(), e.toString());
      }
    }
  }
}
