package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class WatchThreadTest {
  /**
   * The periodic job takes longer than its period; without a share of their own, jobs would take
   * turns with it.
   */
  @Test
  void aSlowPeriodicJobDoesNotKeepTheQueueWaiting() throws InterruptedException {
    AtomicInteger periods = new AtomicInteger();
    Runnable slow =
        () -> {
          periods.incrementAndGet();
          busyFor(Duration.ofMillis(20));
        };
    CountDownLatch jobs = new CountDownLatch(200);
    AtomicLong seen = new AtomicLong();
    try (WatchThread thread = new WatchThread(Duration.ofMillis(1), slow, () -> {})) {
      for (int i = 0; i < 200; i++) {
        thread.add(
            () -> {
              jobs.countDown();
              seen.set(periods.get());
            });
      }
      thread.start();
      assertTrue(jobs.await(30, TimeUnit.SECONDS));
    }
    assertTrue(seen.get() < 100, seen + " periods ran between 200 short jobs");
  }

  private static void busyFor(Duration time) {
    long end = System.nanoTime() + time.toNanos();
    while (System.nanoTime() - end < 0) {
      Thread.onSpinWait();
    }
  }
}
