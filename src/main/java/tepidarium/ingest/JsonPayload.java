package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * A payload with exactly one JSON value. Reads it twice as a stream: first to check the syntax,
 * then to extract the readings. Both passes hold at most one array entry in memory. Used by one
 * thread for one message.
 */
final class JsonPayload {
  private static final String ONE_VALUE =
      "send one object per message, or several as an array [{…},{…}]";

  private final byte[] utf8;
  private final boolean array;
  private final int entries;

  /** Position up to which excerpts were taken, as an index of a byte and of a UTF-16 character. */
  private int excerptByte;

  private long excerptCharacter;

  private JsonPayload(byte[] utf8, boolean array, int entries) {
    this.utf8 = utf8;
    this.array = array;
    this.entries = entries;
    this.excerptByte = Text.startsWithMark(utf8) ? Text.BYTE_ORDER_MARK_BYTES : 0;
  }

  /** Checks the payload of the message. Rejects the message and returns null if it is not JSON. */
  static @Nullable JsonPayload check(ReadingCollector collector) {
    byte[] utf8 = collector.message().payload();
    if (beginsWithZero(utf8)) {
      collector.reject(
          RejectCode.JSON, "broken JSON, it begins with a zero byte: check the sender's buffer");
      return null;
    }
    try (JsonParser parser = PayloadJson.checkingParser(utf8)) {
      return check(parser, utf8, collector);
    } catch (JsonProcessingException e) {
      collector.reject(RejectCode.JSON, PayloadJson.reason(e));
      return null;
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /** Whether a zero byte is among the first four; the parser would then assume UTF-16 or UTF-32. */
  private static boolean beginsWithZero(byte[] utf8) {
    for (int i = 0; i < Math.min(4, utf8.length); i++) {
      if (utf8[i] == 0) {
        return true;
      }
    }
    return false;
  }

  private static @Nullable JsonPayload check(
      JsonParser parser, byte[] utf8, ReadingCollector collector) throws IOException {
    boolean array = parser.nextToken() == JsonToken.START_ARRAY;
    int entries = 0;
    int depth = 0;
    while (true) {
      JsonToken token = parser.currentToken();
      if (token == null) {
        collector.reject(RejectCode.EMPTY, "the payload has only blanks: send a reading");
        return null;
      }
      entries += array && depth == 1 && !token.isStructEnd() ? 1 : 0;
      depth += token.isStructStart() ? 1 : token.isStructEnd() ? -1 : 0;
      PayloadJson.checkFields(parser);
      if (depth == 0) {
        break;
      }
      parser.nextToken();
    }
    parser.finishToken();
    JsonLocation end = parser.currentLocation();
    if (hasMore(parser)) {
      collector.reject(
          RejectCode.JSON,
          "more text follows the JSON value" + PayloadJson.at(end) + ": " + ONE_VALUE);
      return null;
    }
    return new JsonPayload(utf8, array, entries);
  }

  private static boolean hasMore(JsonParser parser) throws IOException {
    try {
      return parser.nextToken() != null;
    } catch (JsonProcessingException e) {
      // The text that follows is not JSON.
      return true;
    }
  }

  private static UncheckedIOException unreadable(IOException e) {
    return new UncheckedIOException("a payload in memory could not be read", e);
  }

  boolean isArray() {
    return array;
  }

  /** Number of array entries; 0 if the value is not an array. */
  int entries() {
    return entries;
  }

  /**
   * Reads one value. The parser is at the start of the value before the call, and at its end after
   * it.
   */
  @FunctionalInterface
  interface Reader {
    void read(JsonParser parser) throws IOException, InterruptedException;
  }

  /** Calls the reader once for each array entry, or once for a value that is not an array. */
  void read(Reader reader) throws InterruptedException {
    try (JsonParser parser = PayloadJson.parser(utf8)) {
      parser.nextToken();
      if (!array) {
        reader.read(parser);
        return;
      }
      while (parser.nextToken() != JsonToken.END_ARRAY) {
        reader.read(parser);
      }
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /**
   * Returns the beginning of a part of the text for the reject log. Parts must be requested in
   * order.
   *
   * @param from start of the part, in UTF-16 characters
   * @param to end of the part
   */
  String excerpt(long from, long to) {
    int length = (int) Math.min(Math.max(0, to - from), Reject.MAX_EXCERPT_LENGTH + 1);
    advance(from);
    int bytes = Math.min(utf8.length - excerptByte, Text.MAX_CHARACTER_BYTES * length);
    String text = new String(utf8, excerptByte, bytes, StandardCharsets.UTF_8);
    return text.length() <= length ? text : text.substring(0, length);
  }

  private void advance(long character) {
    while (excerptCharacter < character && excerptByte < utf8.length) {
      int lead = utf8[excerptByte] & 0xFF;
      int bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : Text.MAX_CHARACTER_BYTES;
      excerptByte = Math.min(utf8.length, excerptByte + bytes);
      excerptCharacter += bytes == Text.MAX_CHARACTER_BYTES ? 2 : 1;
    }
  }
}
