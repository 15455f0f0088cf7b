package tepidarium.alert.notify;

import java.time.Clock;
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

/**
 * Hands what waits in the store to the notifiers. Each has a thread of its own, so that one whose
 * receiver hangs holds up no other. An attempt is noted once it has ended: after a kill during an
 * attempt it is made again, under the same number, by which a receiver can tell.
 */
final class Outbox implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Outbox.class);
  private static final long STOP_LIMIT_SECONDS = 10;

  private final NoticeStore store;
  private final Duration giveUpAfter;
  private final Clock clock;
  private final Map<String, Courier> couriers = new LinkedHashMap<>();
  private final Semaphore oneTest = new Semaphore(1);

  Outbox(NoticeStore store, Duration giveUpAfter, List<Notifier> notifiers, Clock clock) {
    this.store = store;
    this.giveUpAfter = giveUpAfter;
    this.clock = clock;
    notifiers.forEach(notifier -> couriers.put(notifier.name(), new Courier(notifier)));
  }

  List<Notifier> notifiers() {
    return couriers.values().stream().map(courier -> courier.notifier).toList();
  }

  /** The names of those that a notice goes to. */
  List<String> names(NoticeKind kind, boolean escalated) {
    return notifiers().stream()
        .filter(n -> n.onlyForEscalation() ? escalated : kind != NoticeKind.ESCALATION)
        .map(Notifier::name)
        .toList();
  }

  /**
   * Gives each notifier that has nothing to do what waits for it. Whoever is busy is left out
   * before the store is asked: what it answers about a delivery under way would be out of date.
   */
  void handOut(Instant now) {
    Map<String, Courier> free = new LinkedHashMap<>();
    couriers.forEach(
        (name, courier) -> {
          if (courier.idle.tryAcquire()) {
            free.put(name, courier);
          }
        });
    try {
      Map<String, List<Delivery>> byNotifier = new LinkedHashMap<>();
      for (Delivery delivery : store.due(now)) {
        byNotifier.computeIfAbsent(delivery.notifier(), name -> new ArrayList<>()).add(delivery);
      }
      byNotifier.forEach(
          (name, deliveries) -> {
            Courier courier = free.remove(name);
            if (courier != null) {
              courier.start(deliveries);
            } else if (!couriers.containsKey(name)) {
              deliveries.forEach(delivery -> note(delivery, gone(name)));
            }
          });
    } finally {
      free.values().forEach(courier -> courier.idle.release());
    }
  }

  private static Outcome gone(String name) {
    return Outcome.refused("there is no notifier \"" + name + "\" any more");
  }

  private boolean note(Delivery delivery, Outcome outcome) {
    Delivery after = delivery.after(outcome, clock.instant(), giveUpAfter);
    store.update(after);
    if (after.state() == Delivery.State.FAILED) {
      LOG.warn(
          "notice {} did not reach {}: {}",
          delivery.notice().id(),
          delivery.notifier(),
          outcome.words());
    }
    return outcome.result() != Outcome.Result.LATER;
  }

  Outcome test(Notifier notifier, Notice notice) {
    if (!oneTest.tryAcquire()) {
      return Outcome.later("another test is under way; wait for its answer");
    }
    try {
      return notifier.deliver(Delivery.first(0, notice, notifier.name()));
    } finally {
      oneTest.release();
    }
  }

  @Override
  public void close() {
    couriers.values().forEach(Courier::stop);
    couriers.values().forEach(Courier::awaitEnd);
  }

  private final class Courier {
    private final Notifier notifier;
    private final Semaphore idle = new Semaphore(1);
    private final ExecutorService thread;
    private volatile boolean stopping;

    Courier(Notifier notifier) {
      this.notifier = notifier;
      this.thread =
          Executors.newSingleThreadExecutor(
              task -> {
                Thread made = new Thread(task, "notify-" + notifier.name());
                made.setDaemon(true);
                return made;
              });
    }

    /** To be called by whoever has found it idle, once. */
    void start(List<Delivery> deliveries) {
      thread.execute(() -> deliver(deliveries));
    }

    /** What is left after one that must wait is handed out again in a second. */
    private void deliver(List<Delivery> deliveries) {
      try {
        for (Delivery delivery : deliveries) {
          if (stopping || !note(delivery, notifier.deliver(delivery))) {
            return;
          }
        }
      } catch (RuntimeException e) {
        LOG.error("{} met an unexpected failure", notifier.name(), e);
      } finally {
        idle.release();
      }
    }

    void stop() {
      stopping = true;
      thread.shutdown();
    }

    void awaitEnd() {
      try {
        if (!thread.awaitTermination(STOP_LIMIT_SECONDS, TimeUnit.SECONDS)) {
          LOG.warn("{} is still sending; it is left alone", notifier.name());
          thread.shutdownNow();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
