package tepidarium.alert;

import java.util.Locale;

/** How soon a person should act; the three levels that ANSI/ISA-18.2 proposes. */
public enum Priority {
  LOW,
  MEDIUM,
  HIGH;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
