package tepidarium.fault;

import tepidarium.reading.Quantity;

/**
 * Recognises values that a sensor can report but that are impossible in a germination container: a
 * gross range test. The bounds are common practice, no source. Such a value is doubtful and no
 * error code, because an overheated mat can exceed 70 °C.
 */
public final class Implausible {
  /** Coldest possible temperature, −30 °C. */
  public static final double COLDEST_C = -30;

  /** Hottest possible temperature, 70 °C. */
  public static final double HOTTEST_C = 70;

  /** Driest possible air over moist seeds, 1 % relative humidity. */
  public static final double DRIEST_PERCENT = 1;

  private Implausible() {}

  public static boolean is(Quantity quantity, double value) {
    return switch (quantity) {
      case TEMPERATURE -> value < COLDEST_C || value > HOTTEST_C;
      case HUMIDITY -> value < DRIEST_PERCENT;
      default -> false;
    };
  }
}
