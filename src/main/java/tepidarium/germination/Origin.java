package tepidarium.germination;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** From where seed was gathered. */
public enum Origin {
  PLANT,
  GROUND,
  UNKNOWN;

  /**
   * The one of that name; unknown for none.
   *
   * @throws InvalidInput naming all when there is none of that name
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
