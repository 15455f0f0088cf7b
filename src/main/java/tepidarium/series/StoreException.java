package tepidarium.series;

/** A store that is away, full or broken; what was being done can be tried again. */
public final class StoreException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public StoreException(String message, Throwable cause) {
    super(message, cause);
  }
}
