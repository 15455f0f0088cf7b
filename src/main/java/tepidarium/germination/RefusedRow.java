package tepidarium.germination;

import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** One of several records taken over from elsewhere cannot be. */
public final class RefusedRow extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int index;

  RefusedRow(int index, @Nullable String message) {
    super(message);
    this.index = index;
  }

  static void checking(int index, Runnable check) {
    try {
      check.run();
    } catch (InvalidInput | NoSuchElementException e) {
      throw new RefusedRow(index, e.getMessage());
    }
  }

  /** Which one, from 0. */
  public int index() {
    return index;
  }
}
