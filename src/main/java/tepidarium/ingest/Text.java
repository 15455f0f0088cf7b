package tepidarium.ingest;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;

/** Text of strangers: made out of bytes, and made fit to be shown. */
final class Text {
  /** Stands for what cannot be shown or decoded. */
  static final char REPLACEMENT = '\uFFFD';

  private static final int LONGEST_QUOTE = 60;
  private static final int LONGEST_NAME = 30;
  private static final int MOST_NAMES = 10;

  /** The longest character of UTF-8, bytes. */
  static final int MOST_BYTES = 4;

  /** The length of a byte order mark in UTF-8, bytes. */
  static final int MARK_BYTES = 3;

  private static final int CHECKED_AT_ONCE = 4_096;

  private Text() {}

  /** Whether the bytes begin with the byte order mark of UTF-8. */
  static boolean startsWithMark(byte[] utf8) {
    return utf8.length >= MARK_BYTES
        && utf8[0] == (byte) 0xEF
        && utf8[1] == (byte) 0xBB
        && utf8[2] == (byte) 0xBF;
  }

  /** Whether the bytes, after a byte order mark, are blanks only. */
  static boolean isBlank(byte[] utf8) {
    for (int i = startsWithMark(utf8) ? MARK_BYTES : 0; i < utf8.length; i++) {
      if (!Character.isWhitespace(utf8[i])) {
        return false;
      }
    }
    return true;
  }

  /**
   * The beginning of the bytes, enough for an excerpt, however long they are; the byte order mark
   * dropped, bad bytes replaced.
   */
  static String beginning(byte[] utf8) {
    int from = startsWithMark(utf8) ? MARK_BYTES : 0;
    // One character more than is kept hides a cut one.
    int most = MOST_BYTES * (Reject.LONGEST_EXCERPT + 1);
    int length = Math.min(utf8.length - from, most);
    return new String(utf8, from, length, StandardCharsets.UTF_8);
  }

  /** The index of the first byte that is not UTF-8, or -1. */
  static int firstBadByte(byte[] utf8) {
    if (isAscii(utf8)) {
      return -1;
    }
    CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
    ByteBuffer in = ByteBuffer.wrap(utf8);
    CharBuffer out = CharBuffer.allocate(Math.min(utf8.length, CHECKED_AT_ONCE));
    CoderResult result = decoder.decode(in, out, true);
    while (result.isOverflow()) {
      out.clear();
      result = decoder.decode(in, out, true);
    }
    return result.isError() ? in.position() : -1;
  }

  private static boolean isAscii(byte[] utf8) {
    for (byte each : utf8) {
      if (each < 0) {
        return false;
      }
    }
    return true;
  }

  /** At most so many characters of the text, those that cannot be shown replaced. */
  static String printable(String text, int most) {
    StringBuilder shown = new StringBuilder(Math.min(text.length(), most));
    int next = 0;
    while (next < text.length()) {
      int character = text.codePointAt(next);
      next += Character.charCount(character);
      if (shown.length() + Character.charCount(character) > most) {
        break;
      }
      shown.appendCodePoint(isPrintable(character) ? character : REPLACEMENT);
    }
    return shown.toString();
  }

  private static boolean isPrintable(int character) {
    return switch (Character.getType(character)) {
      // Formats include the marks that turn the direction of writing and so disguise a text.
      case Character.CONTROL,
          Character.FORMAT,
          Character.SURROGATE,
          Character.PRIVATE_USE,
          Character.UNASSIGNED,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }

  /** The text, cut where it is too long to be quoted in a reason. */
  static String cut(String text) {
    return cut(text, LONGEST_QUOTE);
  }

  private static String cut(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most) + '…';
  }

  /** The text in quotation marks, cut where it is long. */
  static String quote(String text) {
    return '"' + cut(text) + '"';
  }

  /** Some of the names in a row, or "nothing". */
  static String list(Iterator<String> names) {
    List<String> shown = new ArrayList<>();
    int more = 0;
    while (names.hasNext()) {
      String name = names.next();
      if (shown.size() < MOST_NAMES) {
        shown.add(cut(name, LONGEST_NAME));
      } else {
        more++;
      }
    }
    if (shown.isEmpty()) {
      return "nothing";
    }
    return String.join(", ", shown) + (more > 0 ? " and " + more + " more" : "");
  }
}
