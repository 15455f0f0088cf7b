package tepidarium.container;

/**
 * Corrects a sensor's readings linearly, and gives the standard uncertainty of the result:
 * corrected = value + gain · (reading − pivot). The pivot is the reading with the smallest
 * uncertainty, so u² = pivotUncertainty² + gainUncertainty² · (reading − pivot)² + gain² ·
 * repeatability². Source: JCGM 100:2008 (GUM), 5.1.2, the law of propagation.
 *
 * @param gain corrected units per unit read; 1 if only the offset is corrected
 * @param pivot reading, in the unit of the quantity
 * @param value corrected value at the pivot
 * @param pivotUncertainty standard uncertainty of the corrected value at the pivot
 * @param gainUncertainty standard uncertainty of the gain
 */
public record Correction(
    double gain, double pivot, double value, double pivotUncertainty, double gainUncertainty) {
  private static final double COVERAGE_95 = 2;

  public Correction {
    if (!(gain > 0 && gain < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("the gain of a correction must be above 0, not " + gain);
    }
  }

  /**
   * Creates an offset from one fixed point. The gain is taken as 1, because one point does not show
   * it; its uncertainty adds to that of readings away from the point.
   *
   * @param gainUncertainty standard uncertainty of the sensor's gain, such as 0.01 for 1 %
   */
  public static Correction ofOnePoint(FixedPoint point, double gainUncertainty) {
    return new Correction(
        1,
        point.reading(),
        point.reference(),
        Math.hypot(point.readingUncertainty(), point.referenceUncertainty()),
        gainUncertainty);
  }

  /**
   * Computes gain and offset from two fixed points.
   *
   * @param sharedUncertainty standard uncertainty that both reference values have in common, such
   *     as that of one reference thermometer; their own uncertainties are added
   * @throws IllegalArgumentException if the readings are equal, or decrease as the reference
   *     increases
   */
  public static Correction ofTwoPoints(FixedPoint a, FixedPoint b, double sharedUncertainty) {
    double difference = b.reading() - a.reading();
    double gain = (b.reference() - a.reference()) / difference;
    if (difference == 0 || !(gain > 0)) {
      throw new IllegalArgumentException(
          "the fixed point with the higher reference must have the higher reading");
    }
    double varianceA = variance(a, gain);
    double varianceB = variance(b, gain);
    double sum = varianceA + varianceB;
    // The pivot lies closer to the point with the smaller variance.
    double shareOfB = sum == 0 ? 0.5 : varianceA / sum;
    double pivot = a.reading() + shareOfB * difference;
    double own = sum == 0 ? 0 : varianceA * varianceB / sum;
    return new Correction(
        gain,
        pivot,
        a.reference() + gain * (pivot - a.reading()),
        Math.sqrt(own + sharedUncertainty * sharedUncertainty),
        Math.sqrt(sum) / Math.abs(difference));
  }

  private static double variance(FixedPoint point, double gain) {
    double reading = gain * point.readingUncertainty();
    return reading * reading + point.referenceUncertainty() * point.referenceUncertainty();
  }

  /** The corrected value of a reading of 0. */
  public double offset() {
    return value - gain * pivot;
  }

  public double corrected(double reading) {
    return value + gain * (reading - pivot);
  }

  /** Standard uncertainty of the correction of this reading, without the reading's own scatter. */
  public double uncertainty(double reading) {
    return Math.hypot(pivotUncertainty, gainUncertainty * (reading - pivot));
  }

  /**
   * Standard uncertainty of a corrected reading.
   *
   * @param repeatability standard uncertainty of the reading itself
   */
  public double uncertainty(double reading, double repeatability) {
    return Math.hypot(uncertainty(reading), gain * repeatability);
  }

  /** Half-width of the interval with about 95 % coverage: two standard uncertainties. */
  public double expandedUncertainty(double reading, double repeatability) {
    return COVERAGE_95 * uncertainty(reading, repeatability);
  }
}
