package tepidarium.reading;

import java.time.Instant;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Creates readings for tests. */
public final class Readings {
  private Readings() {}

  /**
   * A reading of the air, whose sensor sent the instant: °C, % humidity, lux, V; null if absent.
   */
  public static Reading ofAir(
      SensorId sensor,
      Instant at,
      @Nullable Double temperatureC,
      @Nullable Double humidityPercent,
      @Nullable Double illuminanceLux,
      @Nullable Double batteryV) {
    Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
    put(values, Quantity.TEMPERATURE, temperatureC);
    put(values, Quantity.HUMIDITY, humidityPercent);
    put(values, Quantity.LIGHT, illuminanceLux);
    put(values, Quantity.BATTERY, batteryV);
    return new Reading(sensor, at, values, null);
  }

  private static void put(Map<Quantity, Double> values, Quantity quantity, @Nullable Double value) {
    if (value != null) {
      values.put(quantity, value);
    }
  }
}
