package tepidarium.alert.notify;

/**
 * The outcome of a delivery attempt.
 *
 * @param words description without secrets
 */
public record DeliveryOutcome(Result result, String words) {
  /** The kind of outcome. */
  public enum Result {
    /** Delivered. */
    DELIVERED,
    /** Failed for now; retry later. */
    LATER,
    /** Rejected permanently. */
    REFUSED
  }

  public static DeliveryOutcome delivered(String words) {
    return new DeliveryOutcome(Result.DELIVERED, words);
  }

  public static DeliveryOutcome later(String words) {
    return new DeliveryOutcome(Result.LATER, words);
  }

  public static DeliveryOutcome refused(String words) {
    return new DeliveryOutcome(Result.REFUSED, words);
  }
}
