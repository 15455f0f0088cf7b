package tepidarium.access;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class GuessLimitTest {
  private final GuessLimit limit = new GuessLimit();
  private Instant now = Instant.parse("2026-03-01T06:00:00Z");

  private Duration guess(String address, String name) {
    return limit.begin(address, name, false, now);
  }

  private void guessAsOftenAsAllowed(String address, String name, int times) {
    for (int i = 0; i < times; i++) {
      now = now.plus(guess(address, name));
      guess(address, name);
    }
  }

  @Test
  void anAddressIsSlowedAfterFiveGuesses() {
    for (int i = 0; i < GuessLimit.FREE_BY_ADDRESS; i++) {
      assertEquals(Duration.ZERO, guess("10.0.0.1", "name " + i));
    }
    assertEquals(Duration.ofSeconds(1), guess("10.0.0.1", "another"));
    now = now.plusSeconds(1);
    assertEquals(Duration.ZERO, guess("10.0.0.1", "another"));
    assertEquals(Duration.ofSeconds(2), guess("10.0.0.1", "another"));
    assertEquals(Duration.ZERO, guess("10.0.0.2", "another"));
  }

  @Test
  void theWaitOfAnAddressGrowsToFifteenMinutes() {
    guessAsOftenAsAllowed("10.0.0.1", "owner", 20);
    assertEquals(Duration.ofMinutes(15), guess("10.0.0.1", "owner"));
  }

  @Test
  void manyAddressesOfOneHouseholdCountAsOne() {
    for (int i = 0; i < GuessLimit.FREE_BY_ADDRESS; i++) {
      guess("2001:db8:1:2::" + i, "owner");
    }
    assertEquals(Duration.ofSeconds(1), guess("2001:db8:1:2:ffff::9", "owner"));
    assertEquals(Duration.ZERO, guess("2001:db8:1:3::1", "owner"));
  }

  @Test
  void guessesFromManyAddressesAreSlowedByName() {
    for (int i = 0; i < 100; i++) {
      now = now.plus(guess("10.1.0." + i, "owner"));
      guess("10.1.0." + i, "owner");
    }
    assertEquals(GuessLimit.LONGEST_BY_NAME, guess("10.2.0.1", "Owner "));
    assertEquals(Duration.ZERO, guess("10.2.0.1", "ada"));
  }

  @Test
  void anAttackerCannotLockTheOwnerOut() {
    for (int i = 0; i < 100; i++) {
      now = now.plus(guess("10.1.0." + i, "owner"));
      guess("10.1.0." + i, "owner");
    }
    assertTrue(guess("10.9.9.9", "owner").compareTo(Duration.ofSeconds(30)) <= 0);
    assertEquals(Duration.ZERO, limit.begin("192.168.1.7", "owner", true, now));
    limit.forget("owner");
    assertEquals(Duration.ZERO, guess("10.9.9.9", "owner"));
  }

  @Test
  void aSignInOfOnesOwnDoesNotResetTheCount() {
    for (int i = 0; i < 4; i++) {
      guess("10.0.0.1", "owner");
    }
    guess("10.0.0.1", "ada");
    limit.right("10.0.0.1", "ada", false);
    guess("10.0.0.1", "owner");
    assertEquals(Duration.ofSeconds(1), guess("10.0.0.1", "owner"));
  }

  @Test
  void aCountIsForgottenAfterAnHour() {
    guessAsOftenAsAllowed("10.0.0.1", "owner", 8);
    now = now.plus(GuessLimit.FORGOTTEN_AFTER).plusSeconds(1);
    for (int i = 0; i < GuessLimit.FREE_BY_ADDRESS; i++) {
      assertEquals(Duration.ZERO, guess("10.0.0.1", "owner"));
    }
  }

  @Test
  void wrongGuessesAreNotedForADayAndBounded() {
    for (int i = 0; i < 2 * GuessLimit.MAX_NOTED; i++) {
      limit.wrong("10.0.0.1", null, now);
    }
    assertEquals(GuessLimit.MAX_NOTED, limit.wrongGuesses(now).size());
    assertEquals(0, limit.wrongGuesses(now.plus(Duration.ofHours(25))).size());
  }
}
