package tepidarium.germination;

import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** Thrown when one record of an import is rejected. The message is the reason. */
public final class RefusedRow extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int index;

  RefusedRow(int index, @Nullable String message) {
    this(index, message, null);
  }

  private RefusedRow(int index, @Nullable String message, @Nullable Throwable cause) {
    super(message, cause);
    this.index = index;
  }

  static void checking(int index, Runnable check) {
    try {
      check.run();
    } catch (InvalidInput | NoSuchElementException e) {
      throw new RefusedRow(index, e.getMessage(), e);
    }
  }

  /** The index of the record, starting at 0. */
  public int index() {
    return index;
  }
}
