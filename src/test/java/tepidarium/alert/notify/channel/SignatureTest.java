package tepidarium.alert.notify.channel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class SignatureTest {
  /** RFC 4231, test case 2 (value from memory). */
  @Test
  void theSignatureIsThePublishedOne() {
    assertEquals(
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        Signature.hmac("Jefe", "what do ya want for nothing?"));
  }

  @Test
  void theSignatureCoversTimeAndBody() {
    assertEquals(Signature.hmac("key", "1772611200.{}"), Signature.of("key", "1772611200", "{}"));
  }
}
