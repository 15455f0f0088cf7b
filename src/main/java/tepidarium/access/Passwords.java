package tepidarium.access;

import com.password4j.BcryptFunction;
import com.password4j.types.Bcrypt;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Semaphore;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Hashes and checks passwords with bcrypt, one at a time. Thread-safe.
 *
 * <p>Work factor {@value #WORK_FACTOR}; the minimum is 10 (OWASP Password Storage Cheat Sheet,
 * section bcrypt). Argon2id would need 7 MiB or more for each password, too much for a heap of 96
 * MB.
 *
 * <p>Rules: at least {@value #MIN_CHARACTERS} characters, no rules on which ones, and no password
 * that is guessed first (NIST SP 800-63B-3, section 5.1.1.2). At most {@value #MAX_BYTES} bytes,
 * because bcrypt ignores the rest.
 */
public final class Passwords {
  public static final int MIN_CHARACTERS = 8;
  public static final int MAX_BYTES = 72;

  static final int WORK_FACTOR = 10;

  /** Requests that may wait for their turn; further ones are refused. */
  static final int MAX_WAITING = 8;

  private static final BcryptFunction BCRYPT = BcryptFunction.getInstance(Bcrypt.B, WORK_FACTOR);
  private static final SecureRandom RANDOM = new SecureRandom();

  /** Letters and digits that are not mistaken for each other. */
  private static final String ALPHABET = "abcdefghijkmnpqrstuvwxyz23456789";

  private static final int GROUPS = 4;
  private static final int SENSOR_GROUPS = 5;
  private static final int GROUP_LENGTH = 4;

  /** Passwords that are guessed first; common practice, no source. */
  private static final Set<String> COMMON =
      Set.of(
          "password",
          "passwort",
          "passw0rd",
          "password1",
          "password123",
          "tepidarium",
          "12345678",
          "123456789",
          "1234567890",
          "87654321",
          "abcd1234",
          "abcdefgh",
          "qwertyui",
          "qwerty123",
          "qwertyuiop",
          "qwertzui",
          "iloveyou",
          "letmein1",
          "changeme",
          "administrator");

  /** The hash of a password that nobody knows, checked for people who do not exist. */
  private static final String UNKNOWN_PERSON =
      "$2b$10$J7OfnaVc0ZgR.aYlEDYJ/uLr4cOyXSl39gF.PqVVxiOdxnjZfDc.u";

  private final Semaphore places = new Semaphore(MAX_WAITING + 1);

  /** Thrown if too many requests wait for their password to be checked. */
  public static final class Busy extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  /**
   * Checks a new password against the rules.
   *
   * @throws InvalidInput if it is too short, too long, or guessed first
   */
  public static void check(String name, String password) {
    if (password.codePointCount(0, password.length()) < MIN_CHARACTERS) {
      throw new InvalidInput(
          "password",
          "must have at least " + MIN_CHARACTERS + " characters",
          InputRule.TOO_SHORT.with(MIN_CHARACTERS));
    }
    if (isTooLong(password)) {
      throw new InvalidInput(
          "password",
          "must have at most " + MAX_BYTES + " bytes in UTF-8",
          InputRule.BYTES.with(MAX_BYTES));
    }
    String plain = password.toLowerCase(Locale.ROOT);
    boolean oneCharacter = plain.codePoints().distinct().count() == 1;
    if (oneCharacter || COMMON.contains(plain) || plain.equals(name.toLowerCase(Locale.ROOT))) {
      throw new InvalidInput(
          "password",
          "is one that is guessed first. Choose another",
          InputRule.COMMON_PASSWORD.with());
    }
  }

  private static boolean isTooLong(String password) {
    return password.getBytes(StandardCharsets.UTF_8).length > MAX_BYTES;
  }

  /** Creates a password of 80 random bits, such as {@code k3fp-x7qa-m2ce-9vhd}. */
  public static String random() {
    return random(GROUPS);
  }

  /** Creates a password of 100 random bits for a sensor, of the same form with five groups. */
  static String randomForSensor() {
    return random(SENSOR_GROUPS);
  }

  private static String random(int groups) {
    StringBuilder password = new StringBuilder();
    for (int i = 0; i < groups * GROUP_LENGTH; i++) {
      if (i > 0 && i % GROUP_LENGTH == 0) {
        password.append('-');
      }
      password.append(ALPHABET.charAt(RANDOM.nextInt(ALPHABET.length())));
    }
    return password.toString();
  }

  public static String hash(String password) {
    return BCRYPT.hash(password).getResult();
  }

  /**
   * Checks a password. Takes the same time for a person who does not exist.
   *
   * @throws Busy if {@value #MAX_WAITING} other requests wait already
   */
  boolean matches(String password, Optional<Person> person) {
    if (!places.tryAcquire()) {
      throw new Busy();
    }
    try {
      synchronized (this) {
        String hash = person.map(Person::passwordHash).orElse(UNKNOWN_PERSON);
        boolean same =
            BcryptFunction.getInstanceFromHash(hash)
                .check(isTooLong(password) ? "" : password, hash);
        return same && person.isPresent();
      }
    } finally {
      places.release();
    }
  }
}
