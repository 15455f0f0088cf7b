package tepidarium.heat;

/**
 * The possible error of heat if the sensor reads too high or too low by its stated error
 * throughout. Both are bounds, °C·h, at least 0. Errors of adjoining periods add up.
 *
 * @param less amount by which the true heat is lower if the sensor reads too high
 * @param more amount by which the true heat is higher if the sensor reads too low
 */
public record SensorError(double less, double more) {

  /** Adds the error of an adjoining period. */
  public SensorError plus(SensorError other) {
    return new SensorError(less + other.less, more + other.more);
  }

  /** The larger of both, for a figure with one ± sign. */
  public double either() {
    return Math.max(less, more);
  }
}
