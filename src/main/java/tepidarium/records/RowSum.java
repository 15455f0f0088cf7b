package tepidarium.records;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A checksum of the rows of a table. It does not depend on their order, nor on how a database
 * stores numbers and truth values.
 *
 * @param rows number of rows
 * @param hash sum of the first eight bytes of the SHA-256 of each row, modulo 2^64
 */
public record RowSum(long rows, long hash) {
  static final RowSum NONE = new RowSum(0, 0);

  /** Adds a row. */
  RowSum plus(Map<String, Object> row) {
    MessageDigest digest = sha256();
    new TreeMap<>(row)
        .forEach(
            (column, value) -> {
              add(digest, column.getBytes(StandardCharsets.UTF_8));
              add(digest, bytes(value));
            });
    return new RowSum(rows + 1, hash + ByteBuffer.wrap(digest.digest()).getLong());
  }

  private static void add(MessageDigest digest, byte[] bytes) {
    digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(bytes.length).array());
    digest.update(bytes);
  }

  /** The bytes of a value, after a letter for its kind. */
  private static byte[] bytes(@Nullable Object value) {
    if (value instanceof byte[] raw) {
      return ByteBuffer.allocate(1 + raw.length).put((byte) 'b').put(raw).array();
    }
    return text(value).getBytes(StandardCharsets.UTF_8);
  }

  private static String text(@Nullable Object value) {
    if (value == null) {
      return "n";
    }
    if (value instanceof Boolean flag) {
      return flag ? "i1" : "i0";
    }
    if (value instanceof Double || value instanceof Float) {
      double number = ((Number) value).doubleValue();
      return number == Math.rint(number) && Math.abs(number) < 1L << 53
          ? "i" + (long) number
          : "d" + number;
    }
    // PostgreSQL stores no character U+0000; it gets the replacement character.
    return value instanceof Number ? "i" + value : "t" + value.toString().replace('\0', '\uFFFD');
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
