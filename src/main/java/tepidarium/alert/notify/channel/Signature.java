package tepidarium.alert.notify.channel;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** HMAC-SHA256 (RFC 2104, FIPS 180-4), by which a receiver knows who sent a message. */
final class Signature {
  private Signature() {}

  /** Over the timestamp in epoch seconds, a full stop and the body, all in UTF-8; hexadecimal. */
  static String of(String secret, String timestamp, String body) {
    return hmac(secret, timestamp + '.' + body);
  }

  static String hmac(String secret, String text) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
      return HexFormat.of().formatHex(mac.doFinal(text.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java has HmacSHA256", e);
    }
  }
}
