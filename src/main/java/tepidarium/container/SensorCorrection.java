package tepidarium.container;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import tepidarium.calibration.QuantityCorrection;
import tepidarium.calibration.TypicalSensor;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Corrects the raw readings of one sensor. A quantity with calibration points is corrected by them,
 * at all times. Any other quantity gets the constant offset of the {@link Calibration}.
 *
 * @param dated corrections from calibration points, of the quantities that have some
 */
public record SensorCorrection(Calibration constant, Map<Quantity, QuantityCorrection> dated) {
  public static final SensorCorrection NONE = new SensorCorrection(Calibration.NONE, Map.of());

  public SensorCorrection {
    dated = Map.copyOf(dated);
  }

  public double corrected(Quantity quantity, Instant at, double reading) {
    QuantityCorrection points = dated.get(quantity);
    return points == null
        ? reading + constant.offset(quantity)
        : points.corrected(at.toEpochMilli(), reading);
  }

  public Samples corrected(Quantity quantity, Samples raw) {
    QuantityCorrection points = dated.get(quantity);
    return points == null ? raw.plus(constant.offset(quantity)) : points.corrected(raw);
  }

  /**
   * By how much a corrected value may be off, ±, in the unit of the quantity. With calibration
   * points: two standard uncertainties, about 95 % coverage. Without: the stated error of the
   * sensor, as a bound.
   *
   * @param value corrected value; the gain is so near 1 that it stands for the reading too
   */
  public double error(Quantity quantity, Instant at, double value) {
    QuantityCorrection points = dated.get(quantity);
    if (points != null) {
      return points.expandedUncertainty(at, value);
    }
    return quantity == Quantity.TEMPERATURE
        ? constant.temperatureErrorC()
        : TypicalSensor.statedError(quantity, value);
  }

  /**
   * The instants at which the error of the quantity changes its course: each calibration session,
   * and the middle between two.
   */
  public List<Instant> changes(Quantity quantity) {
    QuantityCorrection points = dated.get(quantity);
    return points == null ? List.of() : points.changes();
  }

  /** Equal keys give equal corrected values. */
  public String key() {
    StringBuilder key = new StringBuilder(constant.toString());
    for (Quantity quantity : Quantity.values()) {
      QuantityCorrection points = dated.get(quantity);
      if (points != null) {
        key.append(points.key());
      }
    }
    return key.toString();
  }
}
