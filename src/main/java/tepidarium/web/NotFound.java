package tepidarium.web;

import java.util.NoSuchElementException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Thrown if a request names an object that does not exist; answered with status 404. */
public final class NotFound extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public NotFound(@Nullable String message) {
    super(message);
  }

  /** Runs a lookup and throws NotFound, with the same message, if nothing was found. */
  public static <T> T ifMissing(Supplier<T> lookup) {
    try {
      return lookup.get();
    } catch (NoSuchElementException e) {
      throw new NotFound(e.getMessage());
    }
  }
}
