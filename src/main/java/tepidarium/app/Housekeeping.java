package tepidarium.app;

import java.time.Duration;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ledger.Ledger;

/** Slow work that nobody waits for, on one thread of its own: keeping the ledger filled. */
final class Housekeeping implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Housekeeping.class);
  private static final Duration FIRST = Duration.ofSeconds(20);
  private static final Duration EVERY = Duration.ofMinutes(10);

  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread made = new Thread(task, "housekeeping");
            made.setDaemon(true);
            return made;
          });

  private Housekeeping() {}

  static Housekeeping start(Ledger ledger) {
    Housekeeping housekeeping = new Housekeeping();
    var unused =
        housekeeping.thread.scheduleWithFixedDelay(
            () -> housekeeping.run(ledger), FIRST.toSeconds(), EVERY.toSeconds(), TimeUnit.SECONDS);
    return housekeeping;
  }

  private void run(Ledger ledger) {
    try {
      ledger.catchUp();
    } catch (RuntimeException e) {
      // Tried again in ten minutes; pages work out meanwhile what they need.
      LOG.warn("could not bring the ledger up to date: {}", e.toString());
    }
  }

  @Override
  public void close() {
    thread.shutdownNow();
    try {
      if (!thread.awaitTermination(10, TimeUnit.SECONDS)) {
        LOG.warn("housekeeping did not stop in time");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
