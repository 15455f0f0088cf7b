package tepidarium.faults;

import static org.awaitility.Awaitility.await;

import java.time.Duration;

/** Whether the faults run in their long form, {@code -Dfaults=full}, or in the short one. */
final class Form {
  /** How long anything may take on a slow and busy machine. */
  static final Duration SOON = Duration.ofMinutes(2);

  private static final boolean FULL = "full".equals(System.getProperty("faults"));

  private Form() {}

  /** A number for the form that runs. */
  static int of(int inShort, int inFull) {
    return FULL ? inFull : inShort;
  }

  /** Lets a fault last. */
  static void last(int seconds) {
    Duration time = Duration.ofSeconds(seconds);
    await().pollDelay(time).atMost(time.plus(SOON)).until(() -> true);
  }
}
