package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class BrokerProbeTest {
  @Test
  void aBrokerCountsAsLostWhileTheLookUpOfItsNameHangs() {
    AtomicLong seconds = new AtomicLong();
    AtomicInteger attempts = new AtomicInteger();
    CountDownLatch hanging = new CountDownLatch(1);
    try (BrokerProbe probe =
        new BrokerProbe(
            () -> attempts.incrementAndGet() == 1 || answersAfter(hanging),
            () -> TimeUnit.SECONDS.toNanos(seconds.get()))) {
      assertFalse(probe.reached());
      probe.test();
      assertTrue(probe.reached());

      seconds.set(3);
      Thread next = new Thread(probe::test);
      next.setDaemon(true);
      next.start();
      await().until(() -> attempts.get() == 2);
      seconds.set(20);
      assertTrue(probe.reached());
      seconds.set(21);
      assertFalse(probe.reached());

      // The answer is as old as its question.
      hanging.countDown();
      await().until(() -> !next.isAlive());
      assertTrue(probe.reached());
      seconds.set(24);
      assertFalse(probe.reached());
    }
  }

  private static boolean answersAfter(CountDownLatch latch) {
    try {
      latch.await();
      return true;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}
