package tepidarium.fault;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * The kinds of sensor faults. Values of the first four kinds are error codes and no measurements;
 * figures leave them out unless the grower includes them. The other kinds are doubtful: they are
 * marked, and figures count them unless the grower excludes them.
 */
public enum FaultKind {
  /** The value that a chip reports after power-up, before its first measurement. */
  POWER_ON(true),
  /** The value that a library reports for a chip that does not answer. */
  NOT_CONNECTED(true),
  /** All bits of the raw value are one, or all are zero. */
  RAW_LIMIT(true),
  /** Outside the measuring range of every common chip. Such a value is refused when it arrives. */
  OUT_OF_RANGE(true),
  /** Inside the measuring range, but impossible in a germination container. */
  IMPLAUSIBLE(false),
  /** The same value for hours, from a sensor whose values change otherwise. */
  STUCK(false),
  /** One reading far from both neighbours. */
  SPIKE(false),
  /** A sudden step to another level. */
  JUMP(false),
  /** Humidity at the end of the sensor's scale. */
  SATURATED_HUMIDITY(false),
  /** Light at the end of the sensor's scale. */
  SATURATED_LIGHT(false),
  /** Saturated humidity while the temperature fell: water condenses on the sensor. */
  CONDENSATION(false),
  /** Two sensors of one container differ by more than their errors allow. */
  DRIFT(false),
  /** The sensor's own clock is behind or ahead. */
  WRONG_CLOCK(false),
  /** The sensor reports less often than before. */
  LENGTHENING_INTERVAL(false),
  /** The voltage of the battery falls fast. */
  FALLING_BATTERY(false);

  private final boolean errorCode;

  FaultKind(boolean errorCode) {
    this.errorCode = errorCode;
  }

  /** Whether the value is an error code and no measurement. Excluded from figures by default. */
  public boolean isErrorCode() {
    return errorCode;
  }

  /** Whether readings are faulty. Otherwise there is nothing to leave out of the figures. */
  public boolean hasFaultyReadings() {
    return this != LENGTHENING_INTERVAL && this != FALLING_BATTERY;
  }

  /** The name used in the API and in the store, for example {@code power-on}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Optional<FaultKind> ofKey(String key) {
    return Arrays.stream(values()).filter(kind -> kind.key().equals(key)).findFirst();
  }
}
