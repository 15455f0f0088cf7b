package tepidarium.germination;

import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** A photo of an entry, JPEG or PNG. Immutable. */
public final class Photo {
  private static final int[] PNG = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
  private static final int[] JPEG = {0xFF, 0xD8, 0xFF};

  private final byte[] bytes;
  private final String mediaType;

  /**
   * Detects the format by the first bytes.
   *
   * @throws InvalidInput if it is neither JPEG nor PNG
   */
  public Photo(byte[] bytes) {
    this.bytes = bytes.clone();
    if (startsWith(bytes, JPEG)) {
      mediaType = "image/jpeg";
    } else if (startsWith(bytes, PNG)) {
      mediaType = "image/png";
    } else {
      throw new InvalidInput("a photo must be a JPEG or PNG picture", InputRule.PICTURE.with());
    }
  }

  private static boolean startsWith(byte[] bytes, int[] signature) {
    if (bytes.length < signature.length) {
      return false;
    }
    for (int i = 0; i < signature.length; i++) {
      if ((bytes[i] & 0xFF) != signature[i]) {
        return false;
      }
    }
    return true;
  }

  public byte[] bytes() {
    return bytes.clone();
  }

  public String mediaType() {
    return mediaType;
  }
}
