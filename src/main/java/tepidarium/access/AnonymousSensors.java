package tepidarium.access;

import java.util.Locale;

/** Where clients of the embedded broker are accepted without an account. */
public enum AnonymousSensors {
  NEVER,
  /** On connections from this machine. */
  LOOPBACK,
  /** From every address. A user name without an account is accepted too. */
  EVERYWHERE;

  /** The name in the settings and in the API. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
