package tepidarium.heat;

/**
 * By how much heat may be wrong because the sensor reads too high or too low by its stated error
 * throughout. Both are bounds, °C·h, at least 0. Errors of adjoining stretches add.
 *
 * @param less the true heat is so much less if the sensor reads too high
 * @param more the true heat is so much more if the sensor reads too low
 */
public record SensorError(double less, double more) {

  /** The larger of both, for a figure with one ± sign. */
  public double either() {
    return Math.max(less, more);
  }
}
