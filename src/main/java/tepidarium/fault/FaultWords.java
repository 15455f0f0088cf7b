package tepidarium.fault;

import java.time.Duration;
import java.util.Locale;
import tepidarium.reading.Quantity;

/** Describes a fault for the grower: first what is wrong, then the remedy. */
final class FaultWords {
  private FaultWords() {}

  static String of(Fault fault) {
    return switch (fault.kind()) {
      case POWER_ON ->
          "Exactly 85 °C: a DS18B20 reports this after power-up, before its first measurement."
              + " Check its supply and cable.";
      case NOT_CONNECTED -> "−127 °C: the sensor chip did not answer. Check its cable and plug.";
      case RAW_LIMIT ->
          values(fault) + ": all bits of the raw value are equal. Check the wiring of the chip.";
      case OUT_OF_RANGE ->
          values(fault) + " is outside what a sensor can measure. Check the sensor and its unit.";
      case IMPLAUSIBLE ->
          values(fault) + " is impossible in a germination container. Check the sensor.";
      case STUCK ->
          values(fault)
              + " without any change for "
              + time(fault)
              + ", although this sensor's values change otherwise. Restart it, check its wiring.";
      case SPIKE -> values(fault) + ", far from the readings before and after. Check the wiring.";
      case JUMP ->
          "Jumped from "
              + value(fault, fault.low())
              + " to "
              + value(fault, fault.high())
              + " and stayed there. Check whether the sensor was moved.";
      case SATURATED_HUMIDITY ->
          "At the end of the humidity scale for "
              + time(fault)
              + ". Differences there mean little.";
      case SATURATED_LIGHT ->
          "The light sensor is at the end of its scale: very bright light, or not connected.";
      case CONDENSATION ->
          "Saturated air while the temperature fell: water condenses on the sensor. Its humidity"
              + " reads too high for hours.";
      case DRIFT ->
          String.format(
              Locale.ROOT,
              "Differs from %s in the same container by %s, more than the errors of both allow."
                  + " Compare them side by side.",
              fault.other(),
              Math.abs(fault.low()) > Math.abs(fault.high())
                  ? value(fault, fault.low())
                  : value(fault, fault.high()));
      case WRONG_CLOCK -> clock(fault);
      case LENGTHENING_INTERVAL ->
          String.format(
              Locale.ROOT,
              "Reports every %s instead of every %s. Check its radio and battery.",
              duration(fault.high()),
              duration(fault.low()));
      case FALLING_BATTERY ->
          String.format(
              Locale.ROOT,
              "Battery fell from %.2f V to %.2f V within a week. Charge or replace it.",
              fault.high(),
              fault.low());
    };
  }

  private static String clock(Fault fault) {
    boolean behind = fault.low() > 0;
    return String.format(
        Locale.ROOT,
        "The sensor's clock is %s by at least %s. Set it, or send age instead of at.",
        behind ? "behind" : "ahead",
        duration(60 * Math.min(Math.abs(fault.low()), Math.abs(fault.high()))));
  }

  private static String values(Fault fault) {
    return fault.low() == fault.high()
        ? value(fault, fault.low())
        : value(fault, fault.low()) + " to " + value(fault, fault.high());
  }

  private static String value(Fault fault, double value) {
    Quantity quantity = fault.quantity();
    String number = String.format(Locale.ROOT, "%.2f", value).replaceAll("\\.?0+$", "");
    return number.replace('-', '−') + (quantity == null ? "" : ' ' + quantity.unit());
  }

  private static String time(Fault fault) {
    return duration(Duration.between(fault.from(), fault.to()).toSeconds());
  }

  /** A duration in the largest unit that gives 2 or more, such as 90 min or 3 h. */
  private static String duration(double seconds) {
    if (seconds < 2 * 60) {
      return String.format(Locale.ROOT, "%.0f s", seconds);
    }
    if (seconds < 2 * 3_600) {
      return String.format(Locale.ROOT, "%.0f min", seconds / 60);
    }
    return seconds < 2 * 86_400
        ? String.format(Locale.ROOT, "%.0f h", seconds / 3_600)
        : String.format(Locale.ROOT, "%.0f days", seconds / 86_400);
  }
}
