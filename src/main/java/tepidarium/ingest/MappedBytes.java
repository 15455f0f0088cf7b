package tepidarium.ingest;

import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Where a message has packed bytes, and how they are written. Values then name their bytes.
 *
 * @param pointer JSON Pointer (RFC 6901) to the text, such as {@code /data}; empty (the default) if
 *     the payload is nothing else
 * @param encoding {@code base64}, {@code hex}, or {@code raw} if the payload is the bytes
 *     themselves
 */
public record MappedBytes(String pointer, String encoding) {
  private static final String RAW = "raw";
  private static final List<String> ENCODINGS = List.of("base64", "hex", RAW);

  public MappedBytes {
    // A configuration file that leaves them out gives null.
    pointer = Objects.requireNonNullElse(pointer, "");
    if (encoding == null || !ENCODINGS.contains(encoding)) {
      throw new IllegalArgumentException(
          "bytes has "
              + (encoding == null ? "no encoding" : "the encoding " + Text.quote(encoding))
              + ": set base64, hex or raw");
    }
    if (encoding.equals(RAW) && !pointer.isEmpty()) {
      throw new IllegalArgumentException(
          "bytes has the encoding raw, so the payload is the bytes and has no pointer: remove it");
    }
  }

  boolean isRaw() {
    return encoding.equals(RAW);
  }

  boolean isWholePayload() {
    return pointer.isEmpty();
  }

  /** Decodes the text; null if it is not in the encoding. Blanks in hexadecimal are ignored. */
  byte @Nullable [] decode(String text) {
    try {
      String plain = text.strip();
      if (encoding.equals("hex")) {
        String digits = plain.replaceAll("^0[xX]|[\\s:]", "");
        return HexFormat.of().parseHex(digits);
      }
      // Some devices use the alphabet for URLs (RFC 4648, section 5), and some leave out padding.
      return Base64.getDecoder().decode(plain.replace('-', '+').replace('_', '/'));
    } catch (IllegalArgumentException e) {
      return null;
    }
  }

  /** Where the bytes are, for messages. */
  String place() {
    return pointer.isEmpty() ? "the payload" : "the text at " + pointer;
  }
}
