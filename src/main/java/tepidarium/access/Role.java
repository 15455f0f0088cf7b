package tepidarium.access;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Lists what a person or a token may do; each role includes the ones before it. */
public enum Role {
  /** May read everything and change nothing. */
  LOOK,
  /** May also record work: openings, checks, sowings, acknowledgements, pauses. */
  TEND,
  /** May do everything, including settings, deletion, import, people and tokens. */
  OWN;

  /** Whether this role includes the needed one. */
  public boolean includes(Role needed) {
    return compareTo(needed) >= 0;
  }

  /** The name in the API, such as {@code tend}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Finds a role by its name in the API. */
  public static Optional<Role> ofKey(String key) {
    return Arrays.stream(values()).filter(role -> role.key().equals(key)).findFirst();
  }
}
