package tepidarium.bench;

import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** Waiting, always with a limit. */
final class Wait {
  private static final Duration LIMIT = Duration.ofMinutes(5);

  private Wait() {}

  /** Looks again and again until it is so. */
  static void until(String what, long everyMs, BooleanSupplier isSo) {
    long end = System.nanoTime() + LIMIT.toNanos();
    while (!isSo.getAsBoolean()) {
      if (System.nanoTime() - end > 0) {
        throw new IllegalStateException("waited in vain: " + what);
      }
      pause(everyMs);
    }
  }

  static void pause(long ms) {
    try {
      TimeUnit.MILLISECONDS.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  static void toEnd(Thread thread) {
    try {
      thread.join(LIMIT.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
    if (thread.isAlive()) {
      throw new IllegalStateException(thread.getName() + " did not end");
    }
  }

  static double secondsSince(long startNanos) {
    return (System.nanoTime() - startNanos) / 1e9;
  }
}
