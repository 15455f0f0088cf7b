package tepidarium.alert;

/** The state of one limit of a container, for display. */
public enum LimitState {
  /** No reading yet. */
  UNKNOWN,
  /** Inside. */
  INSIDE,
  /** Outside the limit, but on-delay not yet over. */
  OUTSIDE,
  /** The alert is active. */
  ALERT;

  static LimitState of(Condition condition) {
    if (condition.active()) {
      return ALERT;
    }
    if (condition.lastAt() == null) {
      return UNKNOWN;
    }
    return condition.since() == null ? INSIDE : OUTSIDE;
  }
}
