package tepidarium.importing;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import tepidarium.importing.ImportTexts.Setting;
import tepidarium.reading.InvalidInput;

/** Guesses the character encoding of a file from its first bytes, and opens it as text. */
final class FileEncoding {
  private static final int HEAD_BYTES = 256 * 1024;
  private static final Charset WINDOWS = Charset.forName("windows-1252");

  private FileEncoding() {}

  /**
   * Guesses the encoding and adds the reason to the guesses.
   *
   * @throws InvalidInput if the file is empty or is not text
   */
  static Charset guess(Source source, ImportOptions options, List<Guess> guesses)
      throws IOException {
    ImportTexts texts = options.texts();
    byte[] head;
    try (InputStream in = source.open()) {
      head = in.readNBytes(HEAD_BYTES);
    }
    if (head.length == 0) {
      throw texts.refusal("empty");
    }
    Charset set = options.encoding();
    if (set != null) {
      guesses.add(texts.guess("encoding", set.name(), texts.setBy(Setting.ENCODING)));
      return set;
    }
    Guess guess = guess(head, texts);
    guesses.add(guess);
    return Charset.forName(guess.value());
  }

  private static Guess guess(byte[] head, ImportTexts texts) {
    if (startsWith(head, 0xEF, 0xBB, 0xBF)) {
      return texts.guess("encoding", "UTF-8", texts.say("why.byte-order-mark"));
    }
    if (startsWith(head, 0xFF, 0xFE) || startsWith(head, 0xFE, 0xFF)) {
      return texts.guess("encoding", "UTF-16", texts.say("why.byte-order-mark"));
    }
    refuseBinary(head, texts);
    if (zeros(head, 1) > head.length / 5) {
      return texts.guess("encoding", "UTF-16LE", texts.say("why.second-byte"));
    }
    if (zeros(head, 0) > head.length / 5) {
      return texts.guess("encoding", "UTF-16BE", texts.say("why.second-byte"));
    }
    return isUtf8(head)
        ? texts.guess("encoding", "UTF-8", texts.say("why.utf8"))
        : texts.guess("encoding", WINDOWS.name(), texts.say("why.not-utf8"));
  }

  private static void refuseBinary(byte[] head, ImportTexts texts) {
    if (startsWith(head, 'P', 'K', 3, 4) || startsWith(head, 0xD0, 0xCF, 0x11, 0xE0)) {
      throw texts.refusal("binary");
    }
    int zeros = zeros(head, 0) + zeros(head, 1);
    boolean onOneSide = zeros(head, 0) * 20 < zeros || zeros(head, 1) * 20 < zeros;
    int control = 0;
    for (byte one : head) {
      control += one > 0 && one < ' ' && one != '\t' && one != '\n' && one != '\r' ? 1 : 0;
    }
    if ((zeros > 0 && (!onOneSide || zeros < head.length / 5)) || control > head.length / 50) {
      throw texts.refusal("not-text");
    }
  }

  private static boolean startsWith(byte[] head, int... bytes) {
    for (int i = 0; i < bytes.length; i++) {
      if (head.length <= i || (head[i] & 0xFF) != bytes[i]) {
        return false;
      }
    }
    return true;
  }

  private static int zeros(byte[] head, int start) {
    int zeros = 0;
    for (int i = start; i < head.length; i += 2) {
      zeros += head[i] == 0 ? 1 : 0;
    }
    return zeros;
  }

  /** The head may end within a character, so an incomplete end is not an error. */
  private static boolean isUtf8(byte[] head) {
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .decode(ByteBuffer.wrap(head), CharBuffer.allocate(head.length), false);
    return !result.isError();
  }

  /** Opens the file as text, without its byte order mark. */
  static Reader open(Source source, Charset charset) throws IOException {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(source.open(), charset), 1 << 16);
    reader.mark(1);
    if (reader.read() != '\uFEFF') {
      reader.reset();
    }
    return reader;
  }

  /** The first lines of the file, at most 256 Ki characters. */
  static String head(Source source, Charset charset) throws IOException {
    try (Reader reader = open(source, charset)) {
      char[] buffer = new char[HEAD_BYTES];
      int length = 0;
      int read = reader.read(buffer, 0, buffer.length);
      while (read > 0) {
        length += read;
        read = length < buffer.length ? reader.read(buffer, length, buffer.length - length) : 0;
      }
      String text = new String(buffer, 0, length);
      int end = length < buffer.length ? length : text.lastIndexOf('\n') + 1;
      return text.substring(0, end > 0 ? end : length);
    }
  }
}
