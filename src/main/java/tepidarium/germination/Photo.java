package tepidarium.germination;

import tepidarium.reading.InvalidInput;

/** A small picture, JPEG or PNG. Whoever makes one gives its bytes away. */
public final class Photo {
  private static final int[] PNG = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
  private static final int[] JPEG = {0xFF, 0xD8, 0xFF};

  private final byte[] bytes;
  private final String mediaType;

  /**
   * Looks at the first bytes to tell what it is.
   *
   * @throws InvalidInput when it is neither JPEG nor PNG
   */
  public Photo(byte[] bytes) {
    this.bytes = bytes.clone();
    if (begins(bytes, JPEG)) {
      mediaType = "image/jpeg";
    } else if (begins(bytes, PNG)) {
      mediaType = "image/png";
    } else {
      throw new InvalidInput("a photo must be a JPEG or PNG picture");
    }
  }

  private static boolean begins(byte[] bytes, int[] mark) {
    if (bytes.length < mark.length) {
      return false;
    }
    for (int i = 0; i < mark.length; i++) {
      if ((bytes[i] & 0xFF) != mark[i]) {
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
