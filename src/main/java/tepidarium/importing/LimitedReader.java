package tepidarium.importing;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;

/**
 * Limits the length of one record of a file, so that a quote that is not closed cannot fill the
 * memory. Its user calls {@link #recordEnded} after each record. Not thread-safe.
 */
final class LimitedReader extends FilterReader {
  /** The longest record, in characters. A parser may also read some more in advance. */
  static final int MAX_RECORD = 1_000_000;

  /** Thrown when a record is too long. */
  static final class RecordTooLong extends IOException {
    private static final long serialVersionUID = 1L;

    RecordTooLong() {
      super("a record has more than " + MAX_RECORD + " characters");
    }
  }

  private long left = MAX_RECORD;

  LimitedReader(Reader in) {
    super(in);
  }

  void recordEnded() {
    left = MAX_RECORD;
  }

  @Override
  public int read() throws IOException {
    char[] one = new char[1];
    return read(one, 0, 1) < 0 ? -1 : one[0];
  }

  @Override
  public int read(char[] buffer, int offset, int length) throws IOException {
    int read = super.read(buffer, offset, length);
    left -= Math.max(0, read);
    if (left < 0) {
      throw new RecordTooLong();
    }
    return read;
  }
}
