package tepidarium.series;

/**
 * Converts values to the scaled form in which they are stored: an integer count of 0.0001 units
 * (°C, %, lux, V, ppm). This resolution is finer than that of cheap sensors and keeps rows small.
 * Every store returns exactly the same number.
 */
public final class ScaledValue {
  private static final int STEPS = 10_000;
  private static final int DIGITS = 4;

  private ScaledValue() {}

  /** The nearest number of 0.0001 steps. */
  public static long steps(double value) {
    return Math.round(value * STEPS);
  }

  public static double value(long steps) {
    return (double) steps / STEPS;
  }

  /** Appends a number of steps as a decimal number without trailing zeros. */
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
