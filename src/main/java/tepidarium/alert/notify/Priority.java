package tepidarium.alert.notify;

import java.util.Locale;
import tepidarium.alert.AlertKind;

/**
 * How soon a person must act; three steps, as ANSI/ISA-18.2 recommends few (value from memory).
 * Cold and drying outrank heat, because they are what kills recalcitrant seed within days; light
 * can wait for the morning (common practice, no source).
 */
public enum Priority {
  LOW,
  MEDIUM,
  HIGH;

  /** How urgent an alert of this kind is. */
  public static Priority of(AlertKind kind) {
    return switch (kind.key()) {
      case "cold", "dry" -> HIGH;
      case "light", "battery" -> LOW;
      default -> MEDIUM;
    };
  }

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  Priority or(Priority other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
