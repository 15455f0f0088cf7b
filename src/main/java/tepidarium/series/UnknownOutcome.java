package tepidarium.series;

/** Thrown when it is not known whether a change was stored. Another try could store it twice. */
public final class UnknownOutcome extends StoreException {
  private static final long serialVersionUID = 1;

  public UnknownOutcome(String message, Throwable cause) {
    super(message, cause);
  }
}
