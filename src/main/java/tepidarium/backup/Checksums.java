package tepidarium.backup;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Calculates SHA-256 checksums (FIPS 180-4) of streams. */
final class Checksums {
  static final int HEX_LENGTH = 64;
  private static final int BUFFER_BYTES = 1 << 16;

  private Checksums() {}

  /**
   * Copies at most a number of bytes.
   *
   * @return the checksum of the copied bytes, in hexadecimal
   */
  static String copy(InputStream in, OutputStream out, long maxBytes) throws IOException {
    MessageDigest digest = digest();
    byte[] buffer = new byte[BUFFER_BYTES];
    long left = maxBytes;
    while (left > 0) {
      int count = in.read(buffer, 0, (int) Math.min(left, buffer.length));
      if (count < 0) {
        break;
      }
      digest.update(buffer, 0, count);
      out.write(buffer, 0, count);
      left -= count;
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("this Java has no SHA-256", e);
    }
  }
}
