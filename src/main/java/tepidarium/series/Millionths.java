package tepidarium.series;

/**
 * How finely values are kept: whole millionths of their unit. Nothing that a sensor can resolve is
 * lost, and every store gives back the same number.
 */
public final class Millionths {
  private static final double SCALE = 1e6;

  private Millionths() {}

  public static long of(double value) {
    return Math.round(value * SCALE);
  }

  public static double value(long millionths) {
    return millionths / SCALE;
  }

  /** The value as it will be read back. */
  public static double rounded(double value) {
    return value(of(value));
  }
}
