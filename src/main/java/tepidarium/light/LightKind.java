package tepidarium.light;

import java.util.Locale;

/** The source of light in a dark container. */
public enum LightKind {
  /** A recorded opening. */
  OPENING,
  /** The sky or the sun. */
  DAYLIGHT,
  /** A lamp, or light of one through an open lid or door. */
  LAMP,
  /** Unknown. */
  OTHER;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
