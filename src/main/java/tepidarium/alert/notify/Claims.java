package tepidarium.alert.notify;

import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Claims each delivery in the store before it is sent, and stores the outcome afterwards. A claimed
 * delivery without an outcome is not sent again: at the next start it becomes {@link
 * Delivery.State#PERHAPS_SENT}.
 *
 * <p>Keeps an outcome that the store did not take, and stores it later. Thread-safe.
 */
final class Claims {
  private static final Logger LOG = LoggerFactory.getLogger(Claims.class);

  private final NoticeStore store;
  private final Clock clock;
  private final Map<Long, Delivery> unsaved = new ConcurrentHashMap<>();

  Claims(NoticeStore store, Clock clock) {
    this.store = store;
    this.clock = clock;
  }

  /** Settles the claims of the service that used the store before. Call it once, at the start. */
  void settleFormer() {
    int settled = store.settleClaimed();
    if (settled > 0) {
      LOG.warn(
          "notices that were being sent when the service ended: {}. They were perhaps sent and are"
              + " not sent again",
          settled);
    }
  }

  /**
   * Claims a delivery; it may be sent once this returns true.
   *
   * @throws tepidarium.series.StoreException when it may not be sent now. It then waits again as
   *     soon as the store answers, even if the claim was stored.
   */
  boolean claim(Delivery delivery) {
    try {
      return store.claim(delivery.id(), clock.instant());
    } catch (RuntimeException e) {
      unsaved.put(delivery.id(), delivery);
      throw e;
    }
  }

  /** Stores the outcome of an attempt and ends its claim. */
  Delivery confirm(Delivery delivery, DeliveryOutcome outcome, Duration giveUpAfter) {
    Delivery after = delivery.after(outcome, clock.instant(), giveUpAfter);
    try {
      store.update(after);
    } catch (RuntimeException e) {
      unsaved.put(after.id(), after);
      throw e;
    }
    return after;
  }

  /** Stores the outcomes that the store did not take before. */
  void saveUnsaved() {
    for (Delivery delivery : List.copyOf(unsaved.values())) {
      store.update(delivery);
      unsaved.remove(delivery.id(), delivery);
    }
  }
}
