package tepidarium.series;

/** Thrown when a store is unreachable, full or broken. The operation may be retried. */
public class StoreException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public StoreException(String message, Throwable cause) {
    super(message, cause);
  }
}
