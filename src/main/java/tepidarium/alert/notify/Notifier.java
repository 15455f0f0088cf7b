package tepidarium.alert.notify;

/** A way to reach somebody. Called by one thread at a time, and by that of a test beside it. */
public interface Notifier {
  /** Its name in the API: lower-case letters, digits and hyphens. */
  String name();

  /** What kind it is: {@code email}, {@code webhook}, {@code mqtt} or {@code page}. */
  String kind();

  /** Whom it reaches, without secrets. */
  String target();

  /** Whether it is only used when nobody acknowledges in time. */
  default boolean onlyForEscalation() {
    return false;
  }

  /**
   * Tries to deliver; returns within about a minute and throws nothing.
   *
   * @param delivery its number lets a receiver know a message that comes a second time
   */
  Outcome deliver(Delivery delivery);
}
