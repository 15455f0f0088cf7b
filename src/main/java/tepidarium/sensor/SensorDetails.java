package tepidarium.sensor;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Checks;

/**
 * What the grower entered about a sensor.
 *
 * @param name display name, 1 to 60 characters; null for the name in its topic
 * @param note 1 to 500 characters; null for none
 * @param emptyVolts battery voltage at which its cells are empty, 0.5 to 60 V; null for the usual
 *     voltage of the cells
 * @param retiredAt since when the sensor is no longer in use; null if it is in use
 */
public record SensorDetails(
    @Nullable String name,
    @Nullable String note,
    @Nullable Double emptyVolts,
    @Nullable Instant retiredAt) {
  public static final SensorDetails NONE = new SensorDetails(null, null, null, null);

  private static final int LONGEST_NAME = 60;
  private static final int LONGEST_NOTE = 500;

  public SensorDetails {
    name = text("name", name, LONGEST_NAME);
    note = text("note", note, LONGEST_NOTE);
    if (emptyVolts != null) {
      Checks.within("emptyVolts", emptyVolts, 0.5, 60, "V");
    }
  }

  private static @Nullable String text(String field, @Nullable String value, int longest) {
    return value == null || value.isBlank() ? null : Checks.text(field, value, longest);
  }

  /** Returns a copy with another instant of retirement; null for a sensor in use. */
  public SensorDetails retired(@Nullable Instant at) {
    return new SensorDetails(name, note, emptyVolts, at);
  }
}
