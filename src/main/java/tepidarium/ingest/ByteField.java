package tepidarium.ingest;

/**
 * A whole number in packed bytes.
 *
 * @param first index of its first byte, from 0
 * @param length number of bytes, 1 to 4
 * @param little whether the lowest byte comes first
 * @param signed whether it is a two's complement number
 */
record ByteField(int first, int length, boolean little, boolean signed) {
  private static final int BITS = 8;

  boolean isIn(byte[] bytes) {
    return first + length <= bytes.length;
  }

  /** Reads the number; the bytes must be long enough. */
  long read(byte[] bytes) {
    long value = 0;
    for (int i = 0; i < length; i++) {
      int index = little ? first + length - 1 - i : first + i;
      value = (value << BITS) | (bytes[index] & 0xFF);
    }
    long range = 1L << (BITS * length);
    return signed && value >= range / 2 ? value - range : value;
  }

  /** Its bytes in words, such as "bytes 2 to 3". */
  String place() {
    return length == 1 ? "byte " + first : "bytes " + first + " to " + (first + length - 1);
  }
}
