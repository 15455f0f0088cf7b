package tepidarium.alert;

/** Where a container stands against one limit, for the person who looks. */
public enum LimitState {
  /** Nothing known. */
  UNKNOWN,
  /** Inside. */
  INSIDE,
  /** Outside, but not for as long as the on-delay. */
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
