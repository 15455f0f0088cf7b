package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class LoginLimitTest {
  private final AtomicLong nanos = new AtomicLong();
  private final LoginLimit limit = new LoginLimit(nanos::get);

  private void pass(Duration time) {
    nanos.addAndGet(time.toNanos());
  }

  @Test
  void fiveWrongPasswordsBlockForTheRestOfTheMinute() {
    for (int i = 1; i <= 5; i++) {
      assertFalse(limit.isBlocked("a"));
      limit.failed("a");
      pass(Duration.ofSeconds(1));
    }
    assertTrue(limit.isBlocked("a"));
    assertFalse(limit.isBlocked("b"));
    pass(Duration.ofSeconds(54));
    assertTrue(limit.isBlocked("a"));
    pass(Duration.ofSeconds(1));
    assertFalse(limit.isBlocked("a"));
    limit.failed("a");
    assertFalse(limit.isBlocked("a"));
  }

  @Test
  void aClientThatHasLoggedInHasALimitOfItsOwn() {
    String before = limit.key("a", "sensor");
    assertEquals(before, limit.key("a", "guesser"));
    limit.succeeded("a", "sensor");
    for (int i = 1; i <= 5; i++) {
      limit.failed(limit.key("a", "guesser"));
    }
    assertTrue(limit.isBlocked(limit.key("a", "guesser")));
    assertTrue(limit.isBlocked(limit.key("a", "")));
    assertFalse(limit.isBlocked(limit.key("a", "sensor")));
    for (int i = 1; i <= 5; i++) {
      limit.failed(limit.key("a", "sensor"));
    }
    assertTrue(limit.isBlocked(limit.key("a", "sensor")));
  }

  @Test
  void theClientWhoseLoginIsLongestAgoIsForgotten() {
    limit.succeeded("a", "first");
    limit.succeeded("a", "second");
    limit.succeeded("a", "first");
    for (int i = 0; i < 9_999; i++) {
      limit.succeeded("a", "further-" + i);
    }
    assertFalse(limit.key("a", "first").equals("a"));
    assertEquals("a", limit.key("a", "second"));
    limit.succeeded("a", "x".repeat(1_000));
    assertEquals("a", limit.key("a", "x".repeat(1_000)));
  }

  @Test
  void refusedLoginsOfTheLastHourAreCounted() {
    assertEquals("no login refused within the last hour", limit.summary());
    limit.refused("first");
    pass(Duration.ofMinutes(40));
    limit.refused("second");
    limit.refused("third");
    assertEquals("3 logins refused within the last hour, the last one of third", limit.summary());
    pass(Duration.ofMinutes(30));
    assertEquals("2 logins refused within the last hour, the last one of third", limit.summary());
    pass(Duration.ofMinutes(31));
    assertEquals("no login refused within the last hour", limit.summary());
  }

  @Test
  void wordsOfAClientAreShortAndPrintable() {
    limit.refused("client\n2026-01-01 ERROR " + "x".repeat(70_000));
    assertTrue(limit.summary().contains("client\uFFFD2026"), limit.summary());
    assertTrue(limit.summary().length() < 1_000);
  }
}
