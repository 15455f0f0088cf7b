package tepidarium.access;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.InvalidInput;

class PasswordsTest {
  private final Passwords passwords = new Passwords();

  private static Optional<Person> person(String hash) {
    return Optional.of(new Person(1, "owner", Role.OWN, hash));
  }

  /** Check value: a test vector of jBCrypt (TestBCrypt.java), value from memory. */
  @Test
  void readsAPublishedHash() {
    String hash = "$2a$06$m0CrhHm10qJ3lXRY.5zDGO3rS2KdeeWLuGmsfGlMfOxih58VYVfxe";
    assertTrue(passwords.matches("a", person(hash)));
    assertFalse(passwords.matches("b", person(hash)));
  }

  @Test
  void aHashNamesItsWorkFactorAndHasItsOwnSalt() {
    String hash = Passwords.hash("warm dark moist");
    assertTrue(hash.startsWith("$2b$10$"), hash);
    assertNotEquals(hash, Passwords.hash("warm dark moist"));
    assertTrue(passwords.matches("warm dark moist", person(hash)));
    assertFalse(passwords.matches("warm dark moist", Optional.empty()));
  }

  @Test
  void aTooLongPasswordNeverMatchesItsBeginning() {
    String longest = "äö".repeat(18);
    assertDoesNotThrow(() -> Passwords.check("owner", longest));
    assertThrows(InvalidInput.class, () -> Passwords.check("owner", longest + "x"));
    assertFalse(passwords.matches(longest + "x", person(Passwords.hash(longest))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "seven77", "Password", "aaaaaaaaaaaa", "12345678", "Greenhouse"})
  void refusesWhatIsGuessedFirst(String password) {
    assertThrows(InvalidInput.class, () -> Passwords.check("greenhouse", password));
  }

  @ParameterizedTest
  @ValueSource(strings = {"eightchr", "two words", "äöüäöüäö", "🌱🌱🌱🌱🌱🌱🌱🌿"})
  void takesEightCharactersOfAnyKind(String password) {
    assertDoesNotThrow(() -> Passwords.check("owner", password));
  }

  @Test
  void aRandomPasswordIsGoodEnough() {
    String random = Passwords.random();
    assertTrue(random.matches("([a-z2-9]{4}-){3}[a-z2-9]{4}"), random);
    assertNotEquals(random, Passwords.random());
    assertDoesNotThrow(() -> Passwords.check("owner", random));
    assertEquals(19, random.length());
  }
}
