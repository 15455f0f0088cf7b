package tepidarium.fault;

import java.util.Optional;
import tepidarium.reading.Quantity;

/**
 * Recognises error codes among raw values, by the value alone. Sources:
 *
 * <ul>
 *   <li>85 °C: register of a DS18B20 after power-up (maker's data sheet, table 1);
 *   <li>127.94 °C: raw 0x07FF of a DS18B20 after a failed conversion, and −127 °C: sensor does not
 *       answer (DallasTemperature library, release 4.0.6 and its constant for a missing device);
 *   <li>130 °C and −45 °C: raw 0xFFFF and 0x0000 in T = −45 + 175 · raw / (2¹⁶ − 1) of an SHT3x
 *       (maker's data sheet, 4.13);
 *   <li>128.87 °C, −46.85 °C, 119 %, −6 %: the same of an SHT2x, T = −46.85 + 175.72 · raw / 2¹⁶
 *       and RH = −6 + 125 · raw / 2¹⁶;
 *   <li>65,535 and its parts by 10 and 100, and 32,767: 16 bits of ones in other chips (common
 *       practice, no source).
 * </ul>
 *
 * <p>54,612.5 lux is 0xFFFF / 1.2 of a BH1750 (value from memory). Bright sun saturates the chip
 * too, so this value is doubtful and no error code. −0.0625 °C, raw 0xFFFF of a DS18B20, is a real
 * temperature outdoors and not recognised.
 */
public final class ErrorCodes {
  /** Half of the last digit of a value with two decimals, with a margin. */
  private static final double TOLERANCE = 0.006;

  private static final double POWER_ON_C = 85;

  /** Values are stored in steps of 0.0001; a DS18B20 next to 85 °C differs by 0.0625 °C. */
  private static final double POWER_ON_TOLERANCE_C = 0.001;

  private static final double NOT_CONNECTED_C = -127;

  private static final double[] TEMPERATURE_C = {
    127.9375, 130, -45, 128.867, -46.85, 65_535, 6_553.5, 655.35, 32_767, 3_276.7, 327.67
  };
  private static final double[] HUMIDITY_PERCENT = {118.998, -6, 65_535, 6_553.5, 655.35};
  private static final double[] LIGHT_LUX = {54_612.5, 65_535};
  private static final double[] OTHER = {65_535, 65.535};

  private ErrorCodes() {}

  /** The kind of error code; empty for a measurement. */
  public static Optional<FaultKind> of(Quantity quantity, double raw) {
    if (quantity == Quantity.TEMPERATURE && Math.abs(raw - POWER_ON_C) < POWER_ON_TOLERANCE_C) {
      return Optional.of(FaultKind.POWER_ON);
    }
    if (quantity == Quantity.TEMPERATURE && Math.abs(raw - NOT_CONNECTED_C) < TOLERANCE) {
      return Optional.of(FaultKind.NOT_CONNECTED);
    }
    boolean rawLimit =
        switch (quantity) {
          case TEMPERATURE -> isOneOf(raw, TEMPERATURE_C);
          case HUMIDITY -> isOneOf(raw, HUMIDITY_PERCENT);
          case LIGHT -> false;
          default -> isOneOf(raw, OTHER);
        };
    if (rawLimit) {
      return Optional.of(FaultKind.RAW_LIMIT);
    }
    return quantity.plausible(raw) ? Optional.empty() : Optional.of(FaultKind.OUT_OF_RANGE);
  }

  /** Whether the value is that of a full counter: very bright light, or not connected. */
  static boolean isSaturatedLight(double lux) {
    return isOneOf(lux, LIGHT_LUX);
  }

  private static boolean isOneOf(double raw, double[] codes) {
    for (double code : codes) {
      if (Math.abs(raw - code) < TOLERANCE) {
        return true;
      }
    }
    return false;
  }
}
