package tepidarium.calibration;

import java.util.Locale;
import java.util.Optional;

/** How the true value of a calibration point was known. */
public enum CalibrationMethod {
  /**
   * Melting ice in water, 0.00 °C at normal pressure. The triple point of water lies 0.01 °C higher
   * (ITS-90), and a cheap sensor does not resolve the difference.
   */
  ICE_POINT("icePoint"),
  /** A better instrument beside the sensor. */
  COMPARISON("comparison"),
  /** Air over a slurry of salt in a closed jar, see {@link SaltSlurry}. */
  SATURATED_SALT("saturatedSalt"),
  /** Complete darkness, 0 lux. */
  DARK("dark"),
  /** A lamp whose illuminance at the sensor is known. */
  KNOWN_LAMP("knownLamp"),
  OTHER("other");

  private final String key;

  CalibrationMethod(String key) {
    this.key = key;
  }

  /** The name used in JSON and in columns. */
  public String key() {
    return key;
  }

  public static Optional<CalibrationMethod> ofKey(String key) {
    for (CalibrationMethod method : values()) {
      if (method.key.equals(key)) {
        return Optional.of(method);
      }
    }
    return Optional.empty();
  }

  /** The method in words for messages, such as "ice point". */
  public String words() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
