package tepidarium.germination;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** The origin of seeds: gathered from the plant, from the ground, or unknown. */
public enum Origin {
  PLANT,
  GROUND,
  UNKNOWN;

  /**
   * The origin with a name, in upper or lower case; unknown for null.
   *
   * @throws InvalidInput if there is none; the message lists all names
   */
  public static Origin ofKey(@Nullable String key) {
    return key == null
        ? UNKNOWN
        : Arrays.stream(values())
            .filter(origin -> origin.name().equalsIgnoreCase(key))
            .findFirst()
            .orElseThrow(() -> new InvalidInput("from", "must be plant, ground or unknown"));
  }
}
