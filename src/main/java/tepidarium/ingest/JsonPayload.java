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
 * A payload that holds exactly one JSON value. It is read twice as a stream: once to check all of
 * it, once to take the readings out. Neither pass holds more than one entry of an array, so memory
 * use does not grow with the payload. Used by one thread for one message.
 */
final class JsonPayload {
  private static final String ONE_VALUE =
      "send one object a message, or several as an array [{…},{…}]";

  private final byte[] utf8;
  private final boolean array;
  private final int entries;

  /** Up to where excerpts were cut: a byte, and the UTF-16 character that begins there. */
  private int cutByte;

  private long cutCharacter;

  private JsonPayload(byte[] utf8, boolean array, int entries) {
    this.utf8 = utf8;
    this.array = array;
    this.entries = entries;
    this.cutByte = Text.startsWithMark(utf8) ? Text.MARK_BYTES : 0;
  }

  /** The checked payload of the message; null where it is no JSON, and the message is rejected. */
  static @Nullable JsonPayload check(Outcome outcome) {
    byte[] utf8 = outcome.message().payload();
    if (beginsWithZero(utf8)) {
      outcome.reject(
          RejectCode.JSON, "broken JSON, a zero byte at its beginning: check the sender's buffer");
      return null;
    }
    try (JsonParser parser = Json.checkingParser(utf8)) {
      return check(parser, utf8, outcome);
    } catch (JsonProcessingException e) {
      outcome.reject(RejectCode.JSON, Json.reason(e));
      return null;
    } catch (IOException e) {
      throw unreadable(e);
    }
  }

  /** Zeros there would make the parser take the text for UTF-16 or UTF-32. */
  private static boolean beginsWithZero(byte[] utf8) {
    for (int i = 0; i < Math.min(4, utf8.length); i++) {
      if (utf8[i] == 0) {
        return true;
      }
    }
    return false;
  }

  private static @Nullable JsonPayload check(JsonParser parser, byte[] utf8, Outcome outcome)
      throws IOException {
    boolean array = parser.nextToken() == JsonToken.START_ARRAY;
    int entries = 0;
    int depth = 0;
    while (true) {
      JsonToken token = parser.currentToken();
      if (token == null) {
        outcome.reject(RejectCode.EMPTY, "empty payload, only blanks: send a reading, or nothing");
        return null;
      }
      entries += array && depth == 1 && !token.isStructEnd() ? 1 : 0;
      depth += token.isStructStart() ? 1 : token.isStructEnd() ? -1 : 0;
      Json.checkFields(parser);
      if (depth == 0) {
        break;
      }
      parser.nextToken();
    }
    parser.finishToken();
    JsonLocation end = parser.currentLocation();
    if (hasMore(parser)) {
      outcome.reject(
          RejectCode.JSON, "something follows the JSON value" + Json.at(end) + ": " + ONE_VALUE);
      return null;
    }
    return new JsonPayload(utf8, array, entries);
  }

  private static boolean hasMore(JsonParser parser) throws IOException {
    try {
      return parser.nextToken() != null;
    } catch (JsonProcessingException e) {
      // Not even JSON follows, so something does.
      return true;
    }
  }

  private static UncheckedIOException unreadable(IOException e) {
    return new UncheckedIOException("a payload in memory could not be read", e);
  }

  boolean isArray() {
    return array;
  }

  /** Number of entries of the array; 0 where the value is none. */
  int entries() {
    return entries;
  }

  /** Reads from a parser that stands at a value, and leaves it at the end of that value. */
  @FunctionalInterface
  interface Reader {
    void read(JsonParser parser) throws IOException, InterruptedException;
  }

  /** Reads the value: each entry of an array in turn, anything else once. */
  void read(Reader reader) throws InterruptedException {
    try (JsonParser parser = Json.parser(utf8)) {
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
   * The beginning of a part of the text, enough for the reject log. Parts must be asked for in
   * their order.
   *
   * @param from where the part begins, in UTF-16 characters
   * @param to where it ends
   */
  String excerpt(long from, long to) {
    int most = (int) Math.min(Math.max(0, to - from), Reject.LONGEST_EXCERPT + 1);
    advance(from);
    int length = Math.min(utf8.length - cutByte, Text.MOST_BYTES * most);
    String text = new String(utf8, cutByte, length, StandardCharsets.UTF_8);
    return text.length() <= most ? text : text.substring(0, most);
  }

  private void advance(long character) {
    while (cutCharacter < character && cutByte < utf8.length) {
      int lead = utf8[cutByte] & 0xFF;
      int bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : Text.MOST_BYTES;
      cutByte = Math.min(utf8.length, cutByte + bytes);
      cutCharacter += bytes == Text.MOST_BYTES ? 2 : 1;
    }
  }
}
