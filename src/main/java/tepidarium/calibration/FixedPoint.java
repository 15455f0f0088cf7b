package tepidarium.calibration;

import tepidarium.reading.Checks;

/**
 * A sensor's reading at a known reference value, such as melting ice or air over a salt slurry. All
 * uncertainties are standard uncertainties (one standard deviation). Source: JCGM 100:2008, Guide
 * to the expression of uncertainty in measurement (GUM).
 *
 * @param reading raw reading of the sensor, in the unit of the quantity
 * @param readingUncertainty standard uncertainty of the reading, from its scatter and resolution
 * @param reference known reference value, in the same unit
 * @param referenceUncertainty standard uncertainty of the reference value
 */
public record FixedPoint(
    double reading, double readingUncertainty, double reference, double referenceUncertainty) {
  private static final double ICE_C = 0;

  public FixedPoint {
    Checks.within("readingUncertainty", readingUncertainty, 0, 100, "");
    Checks.within("referenceUncertainty", referenceUncertainty, 0, 100, "");
  }

  /** The fixed point of melting ice in water: 0.00 °C, with the given uncertainty. */
  public static FixedPoint ice(
      double readingC, double readingUncertaintyC, double iceUncertaintyC) {
    return new FixedPoint(readingC, readingUncertaintyC, ICE_C, iceUncertaintyC);
  }

  /** Standard uncertainty of a value rounded to this step: step / √12 (GUM 4.3.7). */
  public static double ofResolution(double step) {
    return step / Math.sqrt(12);
  }

  /**
   * Standard uncertainty of a value known only to lie within ± the half-width: half-width / √3 (GUM
   * 4.3.7).
   */
  public static double ofLimits(double halfWidth) {
    return halfWidth / Math.sqrt(3);
  }
}
