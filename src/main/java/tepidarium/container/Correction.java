package tepidarium.container;

/**
 * Corrects a sensor's readings by a straight line, with the standard uncertainty that remains:
 * corrected = value + gain · (reading − pivot). The pivot is the reading at which the line is known
 * best, so that u² = pivotUncertainty² + gainUncertainty² · (reading − pivot)² + gain² ·
 * repeatability². Source: JCGM 100:2008 (GUM), 5.1.2, the law of propagation.
 *
 * @param gain corrected units per unit read; 1 for a mere offset
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
   * From one fixed point: an offset. Away from the point the error grows with the gain, which one
   * point cannot show.
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
   * From two fixed points: gain and offset.
   *
   * @param sharedUncertainty standard uncertainty that both reference values have in common, such
   *     as that of one reference thermometer; their own uncertainties come on top
   * @throws IllegalArgumentException where the readings are equal, or fall as the reference rises
   */
  public static Correction ofTwoPoints(FixedPoint a, FixedPoint b, double sharedUncertainty) {
    double apart = b.reading() - a.reading();
    double gain = (b.reference() - a.reference()) / apart;
    if (apart == 0 || !(gain > 0)) {
      throw new IllegalArgumentException(
          "two fixed points need two different readings that rise with the reference");
    }
    double varianceA = variance(a, gain);
    double varianceB = variance(b, gain);
    double sum = varianceA + varianceB;
    // The nearer a point is known, the nearer to it lies the pivot.
    double shareOfB = sum == 0 ? 0.5 : varianceA / sum;
    double pivot = a.reading() + shareOfB * apart;
    double own = sum == 0 ? 0 : varianceA * varianceB / sum;
    return new Correction(
        gain,
        pivot,
        a.reference() + gain * (pivot - a.reading()),
        Math.sqrt(own + sharedUncertainty * sharedUncertainty),
        Math.sqrt(sum) / Math.abs(apart));
  }

  private static double variance(FixedPoint point, double gain) {
    double reading = gain * point.readingUncertainty();
    return reading * reading + point.referenceUncertainty() * point.referenceUncertainty();
  }

  /** What a reading of 0 is corrected to. */
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

  /** The half-width that holds the true value in about 95 %: two standard uncertainties. */
  public double expandedUncertainty(double reading, double repeatability) {
    return COVERAGE_95 * uncertainty(reading, repeatability);
  }
}
