package tepidarium.alert;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A recorded change of an alert's state.
 *
 * @param id unique ascending number; 0 before it is stored
 * @param alertId null for a change of service while no alert is open
 * @param at when it happened: event time of the reading, else the same as recordedAt
 * @param recordedAt when the service recorded it
 * @param by the person who caused it; null for the service itself
 * @param note what a person wrote, or the reasons in English; null if none
 * @param reasons why the service changed it; empty for a change by a person
 */
public record Transition(
    long id,
    @Nullable Long alertId,
    AlertKey key,
    What what,
    Instant at,
    Instant recordedAt,
    @Nullable String by,
    @Nullable String note,
    List<AlertReason> reasons) {
  /** The kind of change. */
  public enum What {
    /** The alert became active, for the first time or again before it was acknowledged. */
    RAISED("raised"),
    /** The condition no longer holds. */
    RETURNED("returned"),
    ACKNOWLEDGED("acknowledged"),
    SHELVED("shelved"),
    /** Shelving ended, by a person or because its time had expired. */
    UNSHELVED("unshelved"),
    OUT_OF_SERVICE("outOfService"),
    IN_SERVICE("inService"),
    /** Found in late readings; never announced. */
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
      throw new IllegalArgumentException("unknown transition " + key);
    }
  }

  /** A change by the service. */
  static Transition of(
      Alert alert, What what, Instant at, Instant recordedAt, List<AlertReason> reasons) {
    String note = AlertReason.words(reasons);
    return new Transition(
        0, alert.id(), alert.key(), what, at, recordedAt, null, note, List.copyOf(reasons));
  }

  /**
   * A change by a person, or by the service where the time that a person set has ended.
   *
   * @param alert null where the alerts of the key are turned on or off while none is open
   */
  static Transition by(
      @Nullable String person,
      @Nullable Alert alert,
      AlertKey key,
      What what,
      Instant at,
      @Nullable String note) {
    Long id = alert == null ? null : alert.id();
    return new Transition(0, id, key, what, at, at, person, note, List.of());
  }

  /** Returns this transition with the number assigned by the store. */
  public Transition numbered(long number) {
    return new Transition(number, alertId, key, what, at, recordedAt, by, note, reasons);
  }
}
