package tepidarium.records;

import java.time.Instant;

/**
 * One take-over of the database by another service.
 *
 * @param at when the new one took the lease, by the clock of the database
 * @param machine name of the machine whose service took the lease
 * @param previous name of the machine whose service held the lease before
 */
public record TakeOver(Instant at, String machine, String previous, Reason reason) {
  /** Why the previous one no longer works. */
  public enum Reason {
    /** It did not renew its lease: it was killed, was frozen, or did not reach the database. */
    ENDED("ended"),
    /** It was stopped in order. */
    STOPPED("stopped"),
    /** It could not reach the broker, and the other one could. */
    BROKER("broker");

    private final String key;

    Reason(String key) {
      this.key = key;
    }

    /** The name in the database and in the API. */
    public String key() {
      return key;
    }

    /** The reason of a key; a key that this version does not know counts as ended. */
    public static Reason ofKey(String key) {
      for (Reason reason : values()) {
        if (reason.key.equals(key)) {
          return reason;
        }
      }
      return ENDED;
    }
  }
}
