package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * Delivers waiting notices through the notifiers, with retries. Each notifier has its own thread,
 * so one that hangs does not block the others. Each delivery is claimed in the store before the
 * attempt, and its outcome is stored afterwards ({@link Claims}). An attempt during which the
 * process was killed is not repeated.
 */
final class Outbox implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Outbox.class);
  private static final long STOP_LIMIT_SECONDS = 10;

  private final NoticeStore store;
  private final Duration giveUpAfter;
  private final Claims claims;
  private final Map<String, Worker> workers = new LinkedHashMap<>();
  private final Semaphore oneTest = new Semaphore(1);

  Outbox(NoticeStore store, Duration giveUpAfter, List<Notifier> notifiers, Claims claims) {
    this.store = store;
    this.giveUpAfter = giveUpAfter;
    this.claims = claims;
    notifiers.forEach(notifier -> workers.put(notifier.name(), new Worker(notifier)));
  }

  List<Notifier> notifiers() {
    return workers.values().stream().map(courier -> courier.notifier).toList();
  }

  /** The names of the notifiers to which a notice is sent. */
  List<String> names(NoticeKind kind, boolean escalated) {
    return notifiers().stream()
        .filter(n -> n.onlyForEscalation() ? escalated : kind != NoticeKind.ESCALATION)
        .map(Notifier::name)
        .toList();
  }

  /**
   * Gives due deliveries to the idle notifiers. Busy notifiers are excluded before the store is
   * queried, because the stored state of a running delivery is out of date.
   */
  void handOut(Instant now) {
    Map<String, Worker> free = new LinkedHashMap<>();
    workers.forEach(
        (name, courier) -> {
          if (courier.idle.tryAcquire()) {
            free.put(name, courier);
          }
        });
    try {
      claims.saveUnsaved();
      Map<String, List<Delivery>> byNotifier = new LinkedHashMap<>();
      for (Delivery delivery : store.due(now)) {
        byNotifier.computeIfAbsent(delivery.notifier(), name -> new ArrayList<>()).add(delivery);
      }
      byNotifier.forEach(
          (name, deliveries) -> {
            Worker courier = free.remove(name);
            if (courier != null) {
              courier.start(deliveries);
            } else if (!workers.containsKey(name)) {
              deliveries.forEach(delivery -> note(delivery, gone(name)));
            }
          });
    } finally {
      free.values().forEach(courier -> courier.idle.release());
    }
  }

  private static DeliveryOutcome gone(String name) {
    return DeliveryOutcome.refused("there is no notifier \"" + name + "\" any more");
  }

  private boolean note(Delivery delivery, DeliveryOutcome outcome) {
    Delivery after = claims.confirm(delivery, outcome, giveUpAfter);
    if (after.state() == Delivery.State.FAILED) {
      LOG.warn(
          "cannot deliver notice {} through {}: {}",
          delivery.notice().id(),
          delivery.notifier(),
          outcome.words());
    }
    return outcome.result() != DeliveryOutcome.Result.LATER;
  }

  DeliveryOutcome test(Notifier notifier, Notice notice) {
    if (!oneTest.tryAcquire()) {
      return DeliveryOutcome.later("another test is running; wait for its result");
    }
    try {
      return notifier.deliver(Delivery.first(0, notice, notifier.name()));
    } finally {
      oneTest.release();
    }
  }

  @Override
  public void close() {
    workers.values().forEach(Worker::stop);
    workers.values().forEach(Worker::awaitEnd);
  }

  private final class Worker {
    private final Notifier notifier;
    private final Semaphore idle = new Semaphore(1);
    private final ExecutorService thread;
    private volatile boolean stopping;

    Worker(Notifier notifier) {
      this.notifier = notifier;
      this.thread =
          Executors.newSingleThreadExecutor(DaemonThreads.named("notify-" + notifier.name()));
    }

    /** Called once by the thread that has acquired the idle permit. */
    void start(List<Delivery> deliveries) {
      thread.execute(() -> deliver(deliveries));
    }

    /**
     * After a delivery that must be retried, the remaining ones are dispatched again within 1 s.
     */
    private void deliver(List<Delivery> deliveries) {
      try {
        for (Delivery delivery : deliveries) {
          if (stopping || (claims.claim(delivery) && !note(delivery, attempt(delivery)))) {
            return;
          }
        }
      } catch (RuntimeException e) {
        LOG.error("cannot store the deliveries of notifier {}; trying again", notifier.name(), e);
      } finally {
        idle.release();
      }
    }

    private DeliveryOutcome attempt(Delivery delivery) {
      try {
        return notifier.deliver(delivery);
      } catch (RuntimeException e) {
        LOG.error("notifier {} failed unexpectedly; the delivery is retried", notifier.name(), e);
        return DeliveryOutcome.later("unexpected failure: " + e.getClass().getSimpleName());
      }
    }

    void stop() {
      stopping = true;
      thread.shutdown();
    }

    void awaitEnd() {
      try {
        if (!thread.awaitTermination(STOP_LIMIT_SECONDS, TimeUnit.SECONDS)) {
          LOG.warn("notifier {} is still sending at shutdown; not waiting for it", notifier.name());
          thread.shutdownNow();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
