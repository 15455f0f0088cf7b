package tepidarium.light;

import java.util.Locale;

/** Where light in a dark container came from. */
public enum LightKind {
  /** A recorded opening. */
  OPENING,
  /** The sky or the sun. */
  DAYLIGHT,
  /** A lamp, or light of one through an open lid or door. */
  LAMP,
  /** It cannot be told. */
  OTHER;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
