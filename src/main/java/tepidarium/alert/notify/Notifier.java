package tepidarium.alert.notify;

/**
 * Delivers notices over one channel. Called by the delivery thread, and possibly at the same time
 * by the thread that sends a test notice.
 */
public interface Notifier {
  /** The name in the API: lower-case letters, digits and hyphens. */
  String name();

  /** The channel: {@code email}, {@code webhook}, {@code mqtt} or {@code page}. */
  String kind();

  /** The recipient, without secrets. */
  String target();

  /** Whether it is used only for escalation. */
  default boolean onlyForEscalation() {
    return false;
  }

  /**
   * Attempts a delivery; returns within about one minute and does not throw.
   *
   * @param delivery its number lets a receiver detect duplicates
   */
  DeliveryOutcome deliver(Delivery delivery);
}
