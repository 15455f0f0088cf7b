package tepidarium.calibration;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/**
 * Corrects all readings of one quantity of a sensor by its calibration sessions. Between two
 * sessions the correction changes linearly with time; before the first and after the last it is
 * constant. Immutable and thread-safe.
 */
public final class QuantityCorrection {
  private final Quantity quantity;
  private final List<CalibrationSession> sessions;
  private final List<Correction> corrections;
  private final long[] atMs;

  /**
   * Creates it from points of one sensor and quantity.
   *
   * @param points at least one
   * @throws IllegalArgumentException if a session gives no gain above 0
   */
  public QuantityCorrection(List<CalibrationPoint> points) {
    quantity = points.get(0).quantity();
    sessions = CalibrationSession.of(points);
    corrections = sessions.stream().map(CalibrationSession::correction).toList();
    atMs = sessions.stream().mapToLong(session -> session.at().toEpochMilli()).toArray();
  }

  public List<CalibrationSession> sessions() {
    return sessions;
  }

  /** The instant of the last session; the correction is constant from then on. */
  public Instant lastAt() {
    return sessions.get(sessions.size() - 1).at();
  }

  /** The instant of each session, and of the middle between two. */
  public List<Instant> changes() {
    List<Instant> changes = new ArrayList<>();
    for (int i = 0; i < atMs.length; i++) {
      if (i > 0) {
        changes.add(Instant.ofEpochMilli((atMs[i - 1] + atMs[i]) / 2));
      }
      changes.add(Instant.ofEpochMilli(atMs[i]));
    }
    return changes;
  }

  /** The corrected value of a raw reading. Light, for example, is never below 0. */
  public double corrected(long instantMs, double reading) {
    double value = uncapped(instantMs, reading);
    return quantity == Quantity.TEMPERATURE ? value : Math.max(0, value);
  }

  private double uncapped(long instantMs, double reading) {
    int last = atMs.length - 1;
    if (instantMs <= atMs[0]) {
      return corrections.get(0).corrected(reading);
    }
    if (instantMs >= atMs[last]) {
      return corrections.get(last).corrected(reading);
    }
    int next = 1;
    while (atMs[next] < instantMs) {
      next++;
    }
    double share = (double) (instantMs - atMs[next - 1]) / (atMs[next] - atMs[next - 1]);
    return (1 - share) * corrections.get(next - 1).corrected(reading)
        + share * corrections.get(next).corrected(reading);
  }

  public Samples corrected(Samples raw) {
    return raw.mapped(this::corrected);
  }

  /** The correction at an instant. */
  public Line at(Instant at) {
    double offset = uncapped(at.toEpochMilli(), 0);
    return new Line(uncapped(at.toEpochMilli(), 1) - offset, offset);
  }

  /** A corrected value is gain · reading + offset. */
  public record Line(double gain, double offset) {}

  public CalibrationPoint lastPoint() {
    List<CalibrationPoint> points = sessions.get(sessions.size() - 1).points();
    return points.get(points.size() - 1);
  }

  /**
   * Standard uncertainty of a corrected reading. Combines the uncertainties of the references, of
   * the readings at the points and of this reading (one step each), of the gain away from the
   * points, and of drift, see {@link DatedCorrections}. Source: JCGM 100:2008 (GUM), 5.1.2. After a
   * single session the drift is not known, and nothing is added for it.
   */
  public double uncertainty(Instant at, double reading) {
    double ofReading = TypicalSensor.readingUncertainty(quantity);
    if (atMs.length == 1) {
      return corrections.get(0).uncertainty(reading, ofReading);
    }
    int next = 1;
    while (next < atMs.length - 1 && atMs[next] < at.toEpochMilli()) {
      next++;
    }
    return new DatedCorrections(
            sessions.get(next - 1).at(),
            corrections.get(next - 1),
            sessions.get(next).at(),
            corrections.get(next))
        .uncertainty(at, reading, ofReading);
  }

  /** The interval with about 95 % coverage, ±: two standard uncertainties (GUM 6.3.3). */
  public double expandedUncertainty(Instant at, double reading) {
    return Correction.COVERAGE_95 * uncertainty(at, reading);
  }

  /** All points, as a key of what is computed with this correction. */
  @Override
  public String toString() {
    List<Object> key = new ArrayList<>();
    for (CalibrationSession session : sessions) {
      for (CalibrationPoint point : session.points()) {
        key.add(List.of(point.at(), point.reading(), point.trueValue(), point.uncertainty()));
      }
    }
    return quantity + key.toString();
  }
}
