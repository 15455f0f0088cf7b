package tepidarium.ingest;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
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
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private Text() {}

  /** The bytes as UTF-8, the byte order mark dropped, bad bytes replaced. */
  static String lenient(byte[] utf8) {
    String text = new String(utf8, StandardCharsets.UTF_8);
    return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
  }

  /** The beginning of the bytes, enough for an excerpt, however long they are. */
  static String beginning(byte[] utf8) {
    // Four bytes make the longest character; one character more than is kept hides a cut one.
    int most = 4 * (Reject.LONGEST_EXCERPT + 1);
    return new String(utf8, 0, Math.min(utf8.length, most), StandardCharsets.UTF_8);
  }

  /** The index of the first byte that is not UTF-8, or -1. Slow: ask only on suspicion. */
  static int firstBadByte(byte[] utf8) {
    CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
    ByteBuffer in = ByteBuffer.wrap(utf8);
    return decoder.decode(in, CharBuffer.allocate(utf8.length), true).isError()
        ? in.position()
        : -1;
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
