package tepidarium.reading;

import java.util.regex.Pattern;

/**
 * The name under which a sensor reports: 1 to 64 of {@code A-Z a-z 0-9 _ -}.
 *
 * @throws InvalidInput when the name has another form
 */
public record SensorId(String name) implements Comparable<SensorId> {
  private static final Pattern FORM = Pattern.compile("[A-Za-z0-9_-]{1,64}");

  public SensorId {
    if (!FORM.matcher(name).matches()) {
      throw new InvalidInput("a sensor's name is 1 to 64 of A-Z a-z 0-9 _ - , not \"" + name + '"');
    }
  }

  @Override
  public int compareTo(SensorId other) {
    return name.compareTo(other.name);
  }

  @Override
  public String toString() {
    return name;
  }
}
