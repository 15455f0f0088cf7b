package tepidarium.alert.notify.channel;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Signs messages with HMAC-SHA256 (RFC 2104, FIPS 180-4), so that a receiver can verify the sender.
 */
final class Signature {
  private Signature() {}

  /**
   * Signs the timestamp in epoch seconds, a full stop and the body, all in UTF-8. Returns
   * hexadecimal digits.
   */
  static String of(String secret, String timestamp, String body) {
    return hmac(secret, timestamp + '.' + body);
  }

  static String hmac(String secret, String text) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
      return HexFormat.of().formatHex(mac.doFinal(text.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("HmacSHA256 is missing from this Java runtime", e);
    }
  }
}
