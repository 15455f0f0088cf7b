package tepidarium.ingest;

import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;

/**
 * Describes how to read topics and payloads of other devices. In the configuration:
 *
 * <pre>{@code
 * - topic: garden/{sensor}/state
 *   temperature: {pointer: /temp, unit: °F}
 *   humidity: {pointer: /hum, unit: "%"}
 *   at: /time
 * - topic: garden/{sensor}/lux
 *   light: {unit: lux}
 * - topic: field/{sensor}/up
 *   bytes: {pointer: /data, encoding: base64}
 *   temperature: {firstByte: 0, length: 2, signed: true, factor: 0.01}
 * }</pre>
 *
 * <p>A value without a pointer means that the whole payload is one plain number; such a rule has no
 * other field. The time is read as in the service's own format; without one, the time of arrival is
 * used.
 *
 * @param topic MQTT topic filter with exactly one level {@code {sensor}} for the sensor's name;
 *     {@code +} and a last {@code #} are allowed
 * @param bytes where the message has packed bytes; null if it has none
 * @param at JSON Pointer to the time of measuring; null if there is none
 * @throws IllegalArgumentException when a part is invalid; the message names the part and the
 *     remedy
 */
public record MappingRule(
    String topic,
    @Nullable MappedValue temperature,
    @Nullable MappedValue humidity,
    @Nullable MappedValue light,
    @Nullable MappedValue battery,
    @Nullable MappedValue co2,
    @Nullable MappedValue mediumMoisture,
    @Nullable String at,
    @Nullable MappedBytes bytes) {

  public MappingRule {
    // A configuration file that leaves the topic out gives null.
    if (topic == null) {
      throw new IllegalArgumentException(
          "a mapping rule has no topic: write one such as garden/{sensor}/state");
    }
    try {
      MappedReadings.check(
          topic, values(temperature, humidity, light, battery, co2, mediumMoisture), at, bytes);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "the mapping rule for " + Text.quote(topic) + ": " + e.getMessage(), e);
    }
  }

  /** A rule without packed bytes. */
  public MappingRule(
      String topic,
      @Nullable MappedValue temperature,
      @Nullable MappedValue humidity,
      @Nullable MappedValue light,
      @Nullable MappedValue battery,
      @Nullable MappedValue co2,
      @Nullable MappedValue mediumMoisture,
      @Nullable String at) {
    this(topic, temperature, humidity, light, battery, co2, mediumMoisture, at, null);
  }

  /** The mapped quantities, in enum order. */
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
