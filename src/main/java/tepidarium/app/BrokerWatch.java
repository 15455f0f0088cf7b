package tepidarium.app;

import java.time.Duration;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.series.StoreException;

/**
 * Decides when the working service gives its lease back because it cannot reach the broker: after
 * 60 s, if a waiting service reaches the broker, and if no service has given the lease back for
 * this reason within 10 minutes. A service that took over for this reason and has not been
 * connected since keeps the lease: waiting services test only the port, so the broker may refuse
 * both. Used by one thread.
 */
final class BrokerWatch {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerWatch.class);

  /** How long the broker may be away. Common practice, no source. */
  static final Duration AWAY = Duration.ofSeconds(60);

  /** How long no service hands over again. Common practice, no source. */
  static final Duration PAUSE = Duration.ofMinutes(10);

  private final BooleanSupplier isUp;
  private final BooleanSupplier anotherReachesIt;
  private final Predicate<Duration> wasGivenBackWithin;
  private final boolean tookOverForThis;
  private final Runnable giveBack;
  private final LongSupplier nanos;
  private @Nullable Long lostNanos;
  private boolean wasUp;
  private boolean givenBack;

  /**
   * Creates the watch.
   *
   * @param isUp whether this service is connected to the broker
   * @param anotherReachesIt whether a service that waits reaches the broker; may throw {@link
   *     StoreException}
   * @param wasGivenBackWithin whether a service has handed over for this reason within a time; may
   *     throw {@link StoreException}
   * @param tookOverForThis whether this service works because another one had lost the broker
   * @param giveBack called once
   * @param nanos monotonic time
   */
  BrokerWatch(
      BooleanSupplier isUp,
      BooleanSupplier anotherReachesIt,
      Predicate<Duration> wasGivenBackWithin,
      boolean tookOverForThis,
      Runnable giveBack,
      LongSupplier nanos) {
    this.isUp = isUp;
    this.anotherReachesIt = anotherReachesIt;
    this.wasGivenBackWithin = wasGivenBackWithin;
    this.tookOverForThis = tookOverForThis;
    this.giveBack = giveBack;
    this.nanos = nanos;
  }

  void check() {
    if (isUp.getAsBoolean()) {
      lostNanos = null;
      wasUp = true;
      return;
    }
    Long lost = lostNanos;
    if (lost == null) {
      lostNanos = nanos.getAsLong();
      return;
    }
    boolean mayHandOver = !givenBack && (wasUp || !tookOverForThis);
    if (mayHandOver && nanos.getAsLong() - lost > AWAY.toNanos() && another()) {
      givenBack = true;
      LOG.warn(
          "the broker cannot be reached for {} s, and a service that waits reaches it: handing"
              + " over",
          AWAY.toSeconds());
      giveBack.run();
    }
  }

  private boolean another() {
    try {
      return anotherReachesIt.getAsBoolean() && !wasGivenBackWithin.test(PAUSE);
    } catch (StoreException e) {
      LOG.debug("the database does not tell who waits", e);
      return false;
    }
  }
}
