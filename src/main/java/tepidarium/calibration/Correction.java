package tepidarium.calibration;

import java.util.Arrays;
import java.util.List;

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
  static final double COVERAGE_95 = 2;

  /** Keeps the weight of a point without uncertainty finite. */
  private static final double SMALLEST_VARIANCE = 1e-12;

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
   * Computes gain and offset from two or more fixed points by weighted least squares. Each weight
   * is the reciprocal of the variance of the point: gain² · readingUncertainty² +
   * referenceUncertainty², with the gain of the unweighted line. Source: Press et al., Numerical
   * Recipes (2007), 15.2 (value from memory). If three or more points scatter more than their
   * uncertainties allow, the uncertainties are enlarged by √(χ² / (n − 2)) (Birge, Physical Review
   * 40 (1932) 207-227, from memory).
   *
   * @param sharedUncertainty standard uncertainty that all reference values have in common, such as
   *     that of one reference thermometer; their own uncertainties are added
   * @throws IllegalArgumentException if the readings are equal, or decrease as the reference
   *     increases
   */
  public static Correction ofPoints(List<FixedPoint> points, double sharedUncertainty) {
    double unweighted = slope(points);
    double[] weights =
        points.stream().mapToDouble(point -> 1 / variance(point, unweighted)).toArray();
    Line line = Line.of(points, weights);
    if (!(line.slope() > 0)) {
      throw new IllegalArgumentException(
          "the fixed point with the higher reference must have the higher reading");
    }
    double excess = Math.max(1, line.scatter());
    return new Correction(
        line.slope(),
        line.meanReading(),
        line.meanReference(),
        Math.hypot(excess / Math.sqrt(line.sumOfWeights()), sharedUncertainty),
        excess / Math.sqrt(line.spread()));
  }

  /** The gain of the unweighted least-squares line; NaN if all readings are equal. */
  static double slope(List<FixedPoint> points) {
    double[] equal = new double[points.size()];
    Arrays.fill(equal, 1);
    return Line.of(points, equal).slope();
  }

  /**
   * A weighted least-squares line of reference over reading.
   *
   * @param spread Σ weight · (reading − mean)²
   * @param scatter √(χ² / (n − 2)); 0 for two points
   */
  private record Line(
      double sumOfWeights,
      double meanReading,
      double meanReference,
      double spread,
      double slope,
      double scatter) {
    static Line of(List<FixedPoint> points, double[] weights) {
      double sum = 0;
      double x = 0;
      double y = 0;
      for (int i = 0; i < weights.length; i++) {
        sum += weights[i];
        x += weights[i] * points.get(i).reading();
        y += weights[i] * points.get(i).reference();
      }
      x /= sum;
      y /= sum;
      double xx = 0;
      double xy = 0;
      for (int i = 0; i < weights.length; i++) {
        double dx = points.get(i).reading() - x;
        xx += weights[i] * dx * dx;
        xy += weights[i] * dx * (points.get(i).reference() - y);
      }
      double slope = xy / xx;
      double chiSquare = 0;
      for (int i = 0; i < weights.length; i++) {
        double rest = points.get(i).reference() - y - slope * (points.get(i).reading() - x);
        chiSquare += weights[i] * rest * rest;
      }
      double scatter = weights.length > 2 ? Math.sqrt(chiSquare / (weights.length - 2)) : 0;
      return new Line(sum, x, y, xx, slope, scatter);
    }
  }

  private static double variance(FixedPoint point, double gain) {
    double reading = gain * point.readingUncertainty();
    double variance =
        reading * reading + point.referenceUncertainty() * point.referenceUncertainty();
    return Math.max(SMALLEST_VARIANCE, variance);
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
