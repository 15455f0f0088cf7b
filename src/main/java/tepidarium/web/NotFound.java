package tepidarium.web;

import org.jspecify.annotations.Nullable;

/** Something asked for by a name that nothing has. */
final class NotFound extends RuntimeException {
  private static final long serialVersionUID = 1L;

  NotFound(@Nullable String message) {
    super(message);
  }
}
