package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import tepidarium.series.StoreException;

/** When a service that has lost the broker hands over. */
class BrokerWatchTest {
  private long nanos;
  private boolean up = true;
  private boolean anotherReachesIt = true;
  private boolean databaseAway;
  private Duration sinceLastTime = Duration.ofDays(1);
  private int handedOver;

  private BrokerWatch watch = watch(false);

  private BrokerWatch watch(boolean tookOverForThis) {
    return new BrokerWatch(
        () -> up,
        () -> {
          if (databaseAway) {
            throw new StoreException("away", new IllegalStateException());
          }
          return anotherReachesIt;
        },
        within -> sinceLastTime.compareTo(within) < 0,
        tookOverForThis,
        () -> handedOver++,
        () -> nanos);
  }

  /** A broker that takes connections and refuses the login refuses both services. */
  @Test
  void whoTookOverForTheBrokerAndWasNeverConnectedKeepsTheLease() {
    watch = watch(true);
    up = false;
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(3_600));
    up = true;
    assertEquals(0, afterSeconds(5));
    up = false;
    assertEquals(0, afterSeconds(5));
    assertEquals(1, afterSeconds(61));
  }

  private int afterSeconds(long seconds) {
    nanos += Duration.ofSeconds(seconds).toNanos();
    watch.check();
    return handedOver;
  }

  @Test
  void itHandsOverOnceAfterMoreThanAMinute() {
    up = false;
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(60));
    assertEquals(1, afterSeconds(1));
    assertEquals(1, afterSeconds(600));
  }

  @Test
  void aBrokerThatComesBackBeginsTheMinuteAgain() {
    up = false;
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(50));
    up = true;
    assertEquals(0, afterSeconds(5));
    up = false;
    assertEquals(0, afterSeconds(5));
    assertEquals(0, afterSeconds(60));
    assertEquals(1, afterSeconds(1));
  }

  @Test
  void itKeepsTheLeaseWhileNoOtherReachesTheBroker() {
    up = false;
    anotherReachesIt = false;
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(3_600));
    anotherReachesIt = true;
    assertEquals(1, afterSeconds(5));
  }

  @Test
  void thereIsNoToAndFroWithinTenMinutes() {
    up = false;
    sinceLastTime = Duration.ofSeconds(599);
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(120));
    sinceLastTime = Duration.ofSeconds(600);
    assertEquals(1, afterSeconds(1));
  }

  @Test
  void itDecidesNothingWhileTheDatabaseIsAway() {
    up = false;
    databaseAway = true;
    assertEquals(0, afterSeconds(0));
    assertEquals(0, afterSeconds(120));
    databaseAway = false;
    assertEquals(1, afterSeconds(5));
  }
}
