package tepidarium.series;

/**
 * How finely values are kept: whole ten-thousandths of their unit (°C, %, lux, V). That is finer
 * than the cheap sensors of this trade resolve, a reading takes fewer bytes than with more, and
 * every store gives back the same number.
 */
public final class FixedPoint {
  private static final int STEPS = 10_000;
  private static final int DIGITS = 4;

  private FixedPoint() {}

  /** The nearest whole number of steps. */
  public static long steps(double value) {
    return Math.round(value * STEPS);
  }

  public static double value(long steps) {
    return (double) steps / STEPS;
  }

  /** Appends the value of so many steps as a decimal number, with no zeros at its end. */
  public static void append(StringBuilder text, long steps) {
    long whole = Math.abs(steps);
    if (steps < 0) {
      text.append('-');
    }
    text.append(whole / STEPS);
    long rest = whole % STEPS;
    if (rest > 0) {
      String digits = Long.toString(STEPS + rest).substring(1);
      int end = DIGITS;
      while (digits.charAt(end - 1) == '0') {
        end--;
      }
      text.append('.').append(digits, 0, end);
    }
  }
}
