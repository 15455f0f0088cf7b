package tepidarium.germination;

/** Thrown when a request contradicts the germination record. The message names the conflict. */
public final class Contradiction extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public Contradiction(String message) {
    super(message);
  }
}
