package tepidarium.web;

import org.jspecify.annotations.Nullable;

/** A request that makes no sense; the message names the thing and the remedy. */
final class BadRequest extends RuntimeException {
  private static final long serialVersionUID = 1L;

  BadRequest(@Nullable String message) {
    super(message);
  }
}
