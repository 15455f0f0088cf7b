package tepidarium.ingest;

import java.util.Optional;
import tepidarium.reading.SensorId;

/** Sensors' names taken out of topics, without an exception for each wrong one. */
final class SensorNames {
  private static final int LONGEST = 64;

  private SensorNames() {}

  /** The sensor of that very name; empty where the name has another form than it must. */
  static Optional<SensorId> exact(String name) {
    if (name.isEmpty() || name.length() > LONGEST || !name.chars().allMatch(SensorNames::allowed)) {
      return Optional.empty();
    }
    return Optional.of(new SensorId(name));
  }

  /**
   * A sensor for a name that others chose: each character that is not allowed becomes {@code -},
   * and what is too long is cut, so that two names may come out alike. Empty where the name is.
   */
  static Optional<SensorId> adapted(String name) {
    StringBuilder adapted = new StringBuilder(Math.min(name.length(), LONGEST));
    name.codePoints()
        .limit(LONGEST)
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
