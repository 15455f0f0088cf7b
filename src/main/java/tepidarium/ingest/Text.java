package tepidarium.ingest;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;

/** Decodes untrusted text, and makes it safe to show. */
final class Text {
  /** Replaces characters that cannot be shown or decoded. */
  static final char REPLACEMENT = '\uFFFD';

  private static final int MAX_QUOTE_LENGTH = 60;
  private static final int MAX_NAME_LENGTH = 30;
  private static final int MAX_NAMES = 10;

  /** Maximum length of a UTF-8 character, in bytes. */
  static final int MAX_CHARACTER_BYTES = 4;

  /** Length of the UTF-8 byte order mark, in bytes. */
  static final int BYTE_ORDER_MARK_BYTES = 3;

  private static final int CHECK_BUFFER_CHARACTERS = 4_096;

  private Text() {}

  /** Whether the bytes begin with the UTF-8 byte order mark. */
  static boolean startsWithMark(byte[] utf8) {
    return utf8.length >= BYTE_ORDER_MARK_BYTES
        && utf8[0] == (byte) 0xEF
        && utf8[1] == (byte) 0xBB
        && utf8[2] == (byte) 0xBF;
  }

  /** Whether there are only blanks, apart from a byte order mark. */
  static boolean isBlank(byte[] utf8) {
    for (int i = startsWithMark(utf8) ? BYTE_ORDER_MARK_BYTES : 0; i < utf8.length; i++) {
      if (!Character.isWhitespace(utf8[i])) {
        return false;
      }
    }
    return true;
  }

  /**
   * Decodes the beginning of the bytes, enough for an excerpt. Removes the byte order mark and
   * replaces invalid bytes.
   */
  static String beginning(byte[] utf8) {
    int from = startsWithMark(utf8) ? BYTE_ORDER_MARK_BYTES : 0;
    // One more character than the excerpt needs, because the last one may be cut.
    int most = MAX_CHARACTER_BYTES * (Reject.MAX_EXCERPT_LENGTH + 1);
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
    CharBuffer out = CharBuffer.allocate(Math.min(utf8.length, CHECK_BUFFER_CHARACTERS));
    CoderResult result = decoder.decode(in, out, true);
    while (result.isOverflow()) {
      out.clear();
      result = decoder.decode(in, out, true);
    }
    return result.isError() ? in.position() : -1;
  }

  private static boolean isAscii(byte[] utf8) {
    for (byte value : utf8) {
      if (value < 0) {
        return false;
      }
    }
    return true;
  }

  /** Cuts the text to a maximum number of characters and replaces unprintable ones. */
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
      // FORMAT includes marks that change the writing direction, which can disguise a text.
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

  /** Cuts the text at 60 characters, for quoting in a reason. */
  static String cut(String text) {
    return cut(text, MAX_QUOTE_LENGTH);
  }

  private static String cut(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most) + '…';
  }

  /** Puts the text in quotation marks; cut at 60 characters. */
  static String quote(String text) {
    return '"' + cut(text) + '"';
  }

  /** Lists up to 10 names, each cut at 30 characters; "nothing" if there are none. */
  static String list(Iterator<String> names) {
    List<String> shown = new ArrayList<>();
    int more = 0;
    while (names.hasNext()) {
      String name = names.next();
      if (shown.size() < MAX_NAMES) {
        shown.add(cut(name, MAX_NAME_LENGTH));
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
