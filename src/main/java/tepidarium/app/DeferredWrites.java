package tepidarium.app;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.series.StoreException;
import tepidarium.series.UnknownOutcome;
import tepidarium.thread.DaemonThreads;

/**
 * Writes entries to a store on a thread of its own, at most a second later. While the store does
 * not answer, keeps the newest entries in memory and tries again. An intake that writes through it
 * goes on storing readings meanwhile. Thread-safe.
 *
 * <p>Entries in memory are lost if the process is killed. postgresql.md says what may be missing
 * then.
 */
final class DeferredWrites<T> implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(DeferredWrites.class);
  private static final long PERIOD_MS = 500;
  private static final long STOP_SECONDS = 5;

  private final int limit;
  private final Consumer<List<T>> store;
  private final Deque<T> waiting = new ArrayDeque<>();
  private final ScheduledExecutorService thread;

  /**
   * Creates it; {@link #start} starts the thread.
   *
   * @param limit number of the newest entries to keep
   */
  DeferredWrites(String name, int limit, Consumer<List<T>> store) {
    this.limit = limit;
    this.store = store;
    this.thread = Executors.newSingleThreadScheduledExecutor(DaemonThreads.named(name));
  }

  DeferredWrites<T> start() {
    var unused =
        thread.scheduleWithFixedDelay(this::write, PERIOD_MS, PERIOD_MS, TimeUnit.MILLISECONDS);
    return this;
  }

  void add(List<T> entries) {
    synchronized (waiting) {
      waiting.addAll(entries);
      while (waiting.size() > limit) {
        waiting.removeFirst();
      }
    }
  }

  /**
   * Writes what waits. Keeps it if the store does not answer, but not if the store may have it
   * already: it would be counted twice.
   */
  void write() {
    List<T> entries = take();
    if (entries.isEmpty()) {
      return;
    }
    try {
      store.accept(entries);
    } catch (UnknownOutcome e) {
      LOG.error("{} entries are not written again, they may be stored already", entries.size(), e);
    } catch (StoreException e) {
      LOG.debug("keeping {} entries in memory", entries.size(), e);
      putBack(entries);
    } catch (RuntimeException e) {
      LOG.error("{} entries cannot be written and are dropped", entries.size(), e);
    }
  }

  private List<T> take() {
    synchronized (waiting) {
      List<T> entries = new ArrayList<>(waiting);
      waiting.clear();
      return entries;
    }
  }

  private void putBack(List<T> entries) {
    synchronized (waiting) {
      for (int i = entries.size() - 1; i >= 0 && waiting.size() < limit; i--) {
        waiting.addFirst(entries.get(i));
      }
    }
  }

  /** Writes what waits, once more, and stops. */
  @Override
  public void close() {
    thread.shutdown();
    try {
      if (thread.awaitTermination(STOP_SECONDS, TimeUnit.SECONDS)) {
        write();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
