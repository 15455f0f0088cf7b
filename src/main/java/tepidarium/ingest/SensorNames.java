package tepidarium.ingest;

import java.util.Optional;
import tepidarium.reading.SensorId;

/**
 * Converts names in topics to sensor ids. Returns empty for an invalid name instead of throwing.
 */
public final class SensorNames {
  private static final int MAX_LENGTH = 64;

  private SensorNames() {}

  /** The sensor with this name; empty if the name is invalid. */
  static Optional<SensorId> exact(String name) {
    return isExact(name) ? Optional.of(new SensorId(name)) : Optional.empty();
  }

  /** Whether the name is that of a sensor without any change. */
  public static boolean isExact(String name) {
    return !name.isEmpty()
        && name.length() <= MAX_LENGTH
        && name.chars().allMatch(SensorNames::allowed);
  }

  /**
   * Converts a name of another device: replaces each forbidden character by {@code -} and cuts the
   * name at 64 characters. Two names may therefore become equal. Empty if the name is empty.
   */
  public static Optional<SensorId> adapted(String name) {
    StringBuilder adapted = new StringBuilder(Math.min(name.length(), MAX_LENGTH));
    name.codePoints()
        .limit(MAX_LENGTH)
        .forEach(character -> adapted.append(allowed(character) ? (char) character : '-'));
    return adapted.isEmpty() ? Optional.empty() : Optional.of(new SensorId(adapted.toString()));
  }

  private static boolean allowed(int character) {
    return (character >= 'a' && character <= 'z')
        || (character >= 'A' && character <= 'Z')
        || (character >= '0' && character <= '9')
        || character == '_'
        || character == '-';
  }
}
