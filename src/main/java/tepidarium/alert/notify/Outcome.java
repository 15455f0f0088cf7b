package tepidarium.alert.notify;

/**
 * How an attempt to deliver ended.
 *
 * @param words the same in words, without secrets
 */
public record Outcome(Result result, String words) {
  /** What it means. */
  public enum Result {
    /** The receiver has it. */
    DELIVERED,
    /** It may work later. */
    LATER,
    /** The receiver will never take it. */
    REFUSED
  }

  public static Outcome delivered(String words) {
    return new Outcome(Result.DELIVERED, words);
  }

  public static Outcome later(String words) {
    return new Outcome(Result.LATER, words);
  }

  public static Outcome refused(String words) {
    return new Outcome(Result.REFUSED, words);
  }
}
