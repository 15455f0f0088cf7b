package tepidarium.alert;

import java.util.Locale;

/** The urgency of an alert, in the three levels that ANSI/ISA-18.2 proposes. */
public enum Priority {
  LOW,
  MEDIUM,
  HIGH;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The more urgent of the two. */
  public Priority max(Priority other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
