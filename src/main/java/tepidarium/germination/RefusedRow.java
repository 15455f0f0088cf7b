package tepidarium.germination;

import java.util.NoSuchElementException;
import tepidarium.reading.InvalidInput;

/** Thrown when one record of an import is rejected. */
public final class RefusedRow extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int index;
  private final transient InvalidInput reason;

  RefusedRow(int index, InvalidInput reason) {
    super(reason.getMessage(), reason);
    this.index = index;
    this.reason = reason;
  }

  static void checking(int index, Runnable check) {
    try {
      check.run();
    } catch (InvalidInput e) {
      throw new RefusedRow(index, e);
    } catch (NoSuchElementException e) {
      throw new RefusedRow(index, new InvalidInput(String.valueOf(e.getMessage()), e));
    }
  }

  /** The index of the record, starting at 0. */
  public int index() {
    return index;
  }

  /** Why it is rejected. */
  public InvalidInput reason() {
    return reason;
  }
}
