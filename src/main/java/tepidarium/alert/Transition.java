package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One change of an alert's state, as it is recorded for good.
 *
 * @param id a running number, never given twice; 0 before it is recorded
 * @param alertId null where a kind changes its service without an alert being open
 * @param at when it happened: event time of what a sensor reported, else the same as recordedAt
 * @param recordedAt when this service took note
 * @param by who did it; null for the service itself
 * @param note why, in words; null where there is nothing to add
 */
public record Transition(
    long id,
    @Nullable Long alertId,
    AlertKey key,
    What what,
    Instant at,
    Instant recordedAt,
    @Nullable String by,
    @Nullable String note) {
  /** What changed. */
  public enum What {
    /** It became active, for the first time or again before anybody acknowledged it. */
    RAISED("raised"),
    /** The condition no longer holds. */
    RETURNED("returned"),
    ACKNOWLEDGED("acknowledged"),
    SHELVED("shelved"),
    /** It is back from the shelf: by a person, or by itself when its time was over. */
    UNSHELVED("unshelved"),
    OUT_OF_SERVICE("outOfService"),
    IN_SERVICE("inService"),
    /** Readings that came late show it; it was never announced. */
    FOUND_LATE("foundLate");

    private final String key;

    What(String key) {
      this.key = key;
    }

    /** The name used in JSON and in the record. */
    public String key() {
      return key;
    }

    public static What ofKey(String key) {
      for (What what : values()) {
        if (what.key.equals(key)) {
          return what;
        }
      }
      throw new IllegalArgumentException("no transition is called " + key);
    }
  }

  static Transition of(
      Alert alert,
      What what,
      Instant at,
      Instant recordedAt,
      @Nullable String by,
      @Nullable String note) {
    return new Transition(0, alert.id(), alert.key(), what, at, recordedAt, by, note);
  }

  /** The same, under the number that the record gave it. */
  public Transition numbered(long number) {
    return new Transition(number, alertId, key, what, at, recordedAt, by, note);
  }
}
