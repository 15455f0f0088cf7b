package tepidarium.ingest;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import tepidarium.reading.Quantity;

/**
 * A unit in which another device may send a quantity. There is no percent unit for batteries,
 * because the conversion to volts depends on the device.
 */
public enum Unit {
  CELSIUS(Quantity.TEMPERATURE, "°C", "C", 0, 1, 1),
  FAHRENHEIT(Quantity.TEMPERATURE, "°F", "F", -32, 5, 9),
  KELVIN(Quantity.TEMPERATURE, "K", "kelvin", -273.15, 1, 1),
  PERCENT(Quantity.HUMIDITY, "%", "percent", 0, 1, 1),
  FRACTION(Quantity.HUMIDITY, "fraction", "ratio", 0, 100, 1),
  LUX(Quantity.LIGHT, "lux", "lx", 0, 1, 1),
  VOLT(Quantity.BATTERY, "V", "volt", 0, 1, 1),
  MILLIVOLT(Quantity.BATTERY, "mV", "millivolt", 0, 1, 1000),
  PPM(Quantity.CARBON_DIOXIDE, "ppm", "ppmv", 0, 1, 1),
  PERCENT_OF_AIR(Quantity.CARBON_DIOXIDE, "%", "percent", 0, 10_000, 1),
  PERCENT_OF_MEDIUM(Quantity.MEDIUM_MOISTURE, "%", "percent", 0, 1, 1),
  FRACTION_OF_MEDIUM(Quantity.MEDIUM_MOISTURE, "fraction", "ratio", 0, 100, 1);

  private static final double STEPS = 10_000;

  /** Computed once, because the decoder asks for each field of each entry of a backlog. */
  private static final Map<Quantity, Unit> STORED = new EnumMap<>(Quantity.class);

  static {
    for (Unit unit : values()) {
      if (unit.isStored()) {
        STORED.putIfAbsent(unit.quantity, unit);
      }
    }
  }

  private final Quantity quantity;
  private final String symbol;
  private final String alias;
  private final double offset;
  private final double factor;
  private final double divisor;

  Unit(
      Quantity quantity,
      String symbol,
      String alias,
      double offset,
      double factor,
      double divisor) {
    this.quantity = quantity;
    this.symbol = symbol;
    this.alias = alias;
    this.offset = offset;
    this.factor = factor;
    this.divisor = divisor;
  }

  public Quantity quantity() {
    return quantity;
  }

  public String symbol() {
    return symbol;
  }

  /** Whether values are stored in this unit, so no conversion is needed. */
  boolean isStored() {
    return offset == 0 && factor == divisor;
  }

  /**
   * Converts a value to the stored unit. Rounds a converted value to 0.0001, which is finer than
   * any sensor resolves; 303.35 K becomes 30.2 °C and not 30.200000000000045 °C.
   */
  public double toStored(double value) {
    return isStored() ? value : Math.rint((value + offset) * factor / divisor * STEPS) / STEPS;
  }

  /** The unit in which values of the quantity are stored. */
  public static Unit stored(Quantity quantity) {
    return Objects.requireNonNull(STORED.get(quantity));
  }

  /** Finds the unit of a quantity by its symbol or alias. */
  public static Optional<Unit> of(Quantity quantity, String name) {
    return all(quantity).filter(u -> u.symbol.equals(name) || u.alias.equals(name)).findFirst();
  }

  public static List<String> symbols(Quantity quantity) {
    return all(quantity).map(Unit::symbol).toList();
  }

  private static Stream<Unit> all(Quantity quantity) {
    return Stream.of(values()).filter(unit -> unit.quantity == quantity);
  }
}
