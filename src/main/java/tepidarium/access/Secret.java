package tepidarium.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;

/**
 * Creates the secrets of sessions and tokens: 256 random bits in URL-safe Base64. Only the SHA-256
 * hash of a secret is stored. A fast hash is enough here, because nobody can guess 256 random bits.
 * It also hashes the passwords of sensors, which have 100 random bits.
 */
final class Secret {
  private static final int BYTES = 32;
  private static final SecureRandom RANDOM = new SecureRandom();

  private Secret() {}

  static String create() {
    byte[] bytes = new byte[BYTES];
    RANDOM.nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  /** Whether a secret has this hash. Takes the same time for each wrong secret. */
  static boolean matches(String secret, String hash) {
    return MessageDigest.isEqual(
        hash(secret).getBytes(StandardCharsets.US_ASCII), hash.getBytes(StandardCharsets.US_ASCII));
  }

  static String hash(String secret) {
    try {
      byte[] bytes = secret.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
