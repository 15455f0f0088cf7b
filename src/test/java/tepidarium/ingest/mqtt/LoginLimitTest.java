package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import tepidarium.ingest.mqtt.LoginLimit.Client;

class LoginLimitTest {
  private static final int ACCOUNTS = 9;

  private final AtomicLong nanos = new AtomicLong();
  private final LoginLimit limit = new LoginLimit(nanos::get, () -> ACCOUNTS);

  private void pass(Duration time) {
    nanos.addAndGet(time.toNanos());
  }

  private static Client client(String account, String clientId) {
    return new Client(account, "10.0.0.1", clientId);
  }

  private void failFiveTimes(Client client) {
    for (int i = 1; i <= 5; i++) {
      limit.failed(client);
    }
  }

  @Test
  void fiveWrongPasswordsBlockForTheRestOfTheMinute() {
    Client guesser = client("a", "x");
    for (int i = 1; i <= 5; i++) {
      assertFalse(limit.isBlocked(guesser));
      limit.failed(guesser);
      pass(Duration.ofSeconds(1));
    }
    assertTrue(limit.isBlocked(guesser));
    assertTrue(limit.isBlocked(client("a", "y")));
    assertFalse(limit.isBlocked(client("b", "x")));
    assertFalse(limit.isBlocked(new Client("a", "10.0.0.2", "x")));
    pass(Duration.ofSeconds(54));
    assertTrue(limit.isBlocked(guesser));
    pass(Duration.ofSeconds(1));
    assertFalse(limit.isBlocked(guesser));
    limit.failed(guesser);
    assertFalse(limit.isBlocked(guesser));
  }

  @Test
  void aClientThatHasLoggedInHasALimitOfItsOwn() {
    limit.succeeded(client("a", "sensor"));
    failFiveTimes(client("a", "guesser"));
    assertTrue(limit.isBlocked(client("a", "guesser")));
    assertTrue(limit.isBlocked(client("a", "")));
    assertFalse(limit.isBlocked(client("a", "sensor")));
    failFiveTimes(client("a", "sensor"));
    assertTrue(limit.isBlocked(client("a", "sensor")));
    // The right password, given under another id, does not lift the block.
    limit.succeeded(client("a", "another"));
    assertTrue(limit.isBlocked(client("a", "sensor")));
  }

  @Test
  void theClientWhoseLoginIsLongestAgoIsForgotten() {
    limit.succeeded(client("a", "first"));
    limit.succeeded(client("a", "second"));
    limit.succeeded(client("a", "first"));
    // A tenth of 10,000 for each of nine accounts and the service.
    for (int i = 0; i < 999; i++) {
      limit.succeeded(client("a", "further-" + i));
    }
    limit.succeeded(client("a", "x".repeat(1_000)));
    failFiveTimes(client("a", "guesser"));
    assertFalse(limit.isBlocked(client("a", "first")));
    assertTrue(limit.isBlocked(client("a", "second")));
    assertTrue(limit.isBlocked(client("a", "x".repeat(1_000))));
  }

  @Test
  void oneAccountCannotMakeTheServiceForgetClientsOfAnother() {
    limit.succeeded(client("a", "sensor"));
    for (int i = 0; i < 20_000; i++) {
      limit.succeeded(client("b", "c" + i));
    }
    failFiveTimes(client("a", "guesser"));
    assertFalse(limit.isBlocked(client("a", "sensor")));
  }

  @Test
  void oneAccountCannotLiftTheBlockOfAnother() {
    failFiveTimes(client("a", "guesser"));
    for (int i = 0; i < 20_000; i++) {
      limit.succeeded(client("b", "c" + i));
      limit.failed(client("b", "c" + i));
    }
    assertTrue(limit.isBlocked(client("a", "guesser")));
  }

  @Test
  void refusedLoginsOfTheLastHourAreCounted() {
    assertEquals("no login refused within the last hour", limit.summary());
    limit.refused("first");
    pass(Duration.ofMinutes(40));
    limit.refused("second");
    limit.refused("third");
    assertEquals("3 logins refused within the last hour, the last one from third", limit.summary());
    pass(Duration.ofMinutes(30));
    assertEquals("2 logins refused within the last hour, the last one from third", limit.summary());
    pass(Duration.ofMinutes(31));
    assertEquals("no login refused within the last hour", limit.summary());
  }

  @Test
  void textOfAClientIsShortenedAndPrintable() {
    limit.refused("client\n2026-01-01 ERROR " + "x".repeat(70_000));
    assertTrue(limit.summary().contains("client\uFFFD2026"), limit.summary());
    assertTrue(limit.summary().length() < 1_000);
  }
}
