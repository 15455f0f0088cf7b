package tepidarium.ingest;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import tepidarium.reading.Quantity;

/**
 * A unit in which a foreign device may send a quantity. A battery in percent is left out on
 * purpose: percent of what, and by which curve, only the device knows, so it cannot become volts.
 */
enum Unit {
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

  private final Quantity quantity;
  private final String symbol;
  private final String alias;
  private final double shift;
  private final double times;
  private final double per;

  Unit(Quantity quantity, String symbol, String alias, double shift, double times, double per) {
    this.quantity = quantity;
    this.symbol = symbol;
    this.alias = alias;
    this.shift = shift;
    this.times = times;
    this.per = per;
  }

  String symbol() {
    return symbol;
  }

  /** Whether values are kept in this unit, so that nothing needs converting. */
  boolean isStored() {
    return shift == 0 && times == per;
  }

  /**
   * The value in the quantity's own unit. A converted value is rounded to a ten-thousandth, finer
   * than any sensor, so that 303.35 K is 30.2 °C and not 30.200000000000045.
   */
  double toStored(double value) {
    return isStored() ? value : Math.rint((value + shift) * times / per * STEPS) / STEPS;
  }

  /** The unit in which values of the quantity are kept. */
  static Unit stored(Quantity quantity) {
    return all(quantity).filter(Unit::isStored).findFirst().orElseThrow();
  }

  /** The unit that a rule names for a quantity, by its symbol or its other name. */
  static Optional<Unit> of(Quantity quantity, String name) {
    return all(quantity).filter(u -> u.symbol.equals(name) || u.alias.equals(name)).findFirst();
  }

  static List<String> symbols(Quantity quantity) {
    return all(quantity).map(Unit::symbol).toList();
  }

  private static Stream<Unit> all(Quantity quantity) {
    return Stream.of(values()).filter(unit -> unit.quantity == quantity);
  }
}
