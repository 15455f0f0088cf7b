package tepidarium.ingest;

import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * How to read a topic and a payload that others have laid down. In the configuration:
 *
 * <pre>{@code
 * - topic: garden/{sensor}/state
 *   temperature: {pointer: /temp, unit: °F}
 *   humidity: {pointer: /hum, unit: "%"}
 *   at: /time
 * - topic: garden/{sensor}/lux
 *   light: {unit: lux}
 * }</pre>
 *
 * <p>A value without a pointer is the whole payload, a plain number; a rule with one has no other
 * field. The time is read as in this service's own form; without one, arrival counts.
 *
 * @param topic an MQTT topic filter with one level {@code {sensor}} where the sensor's name stands;
 *     {@code +} and a last {@code #} are allowed
 * @param at a JSON Pointer to the time of measuring
 * @throws IllegalArgumentException when a part is wrong, saying which and what to write instead
 */
public record MappingRule(
    String topic,
    @Nullable MappedValue temperature,
    @Nullable MappedValue humidity,
    @Nullable MappedValue light,
    @Nullable MappedValue battery,
    @Nullable MappedValue co2,
    @Nullable MappedValue mediumMoisture,
    @Nullable String at) {

  public MappingRule {
    // A configuration file that leaves the topic out gives null.
    if (topic == null) {
      throw new IllegalArgumentException(
          "a mapping rule has no topic: write one such as garden/{sensor}/state");
    }
    try {
      MappedReadings.check(
          topic, values(temperature, humidity, light, battery, co2, mediumMoisture), at);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "the mapping rule for " + Text.quote(topic) + ": " + e.getMessage(), e);
    }
  }

  /** The mapped quantities in the order of their kinds. */
  Map<Quantity, MappedValue> values() {
    return values(temperature, humidity, light, battery, co2, mediumMoisture);
  }

  private static Map<Quantity, MappedValue> values(
      @Nullable MappedValue temperature,
      @Nullable MappedValue humidity,
      @Nullable MappedValue light,
      @Nullable MappedValue battery,
      @Nullable MappedValue co2,
      @Nullable MappedValue mediumMoisture) {
    Map<Quantity, MappedValue> values = new EnumMap<>(Quantity.class);
    put(values, Quantity.TEMPERATURE, temperature);
    put(values, Quantity.HUMIDITY, humidity);
    put(values, Quantity.LIGHT, light);
    put(values, Quantity.BATTERY, battery);
    put(values, Quantity.CARBON_DIOXIDE, co2);
    put(values, Quantity.MEDIUM_MOISTURE, mediumMoisture);
    return values;
  }

  private static void put(
      Map<Quantity, MappedValue> values, Quantity quantity, @Nullable MappedValue value) {
    if (value != null) {
      values.put(quantity, value);
    }
  }
}
