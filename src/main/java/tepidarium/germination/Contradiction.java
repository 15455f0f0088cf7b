package tepidarium.germination;

/** What was asked for contradicts what the record holds; the message says what and where. */
public final class Contradiction extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public Contradiction(String message) {
    super(message);
  }
}
