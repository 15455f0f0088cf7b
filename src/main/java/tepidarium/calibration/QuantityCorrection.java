package tepidarium.calibration;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
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
  private final Correction first;

  /** The correction between each session and the next; empty if there is one session. */
  private final List<DatedCorrections> dated;

  /**
   * Creates it from points of one sensor and quantity.
   *
   * @param points at least one
   * @throws IllegalArgumentException if a session gives no gain above 0
   */
  public QuantityCorrection(List<CalibrationPoint> points) {
    quantity = points.get(0).quantity();
    sessions = CalibrationSession.of(points);
    first = sessions.get(0).correction();
    dated =
        IntStream.range(1, sessions.size())
            .mapToObj(i -> between(sessions.get(i - 1), sessions.get(i)))
            .toList();
  }

  private static DatedCorrections between(CalibrationSession one, CalibrationSession next) {
    return new DatedCorrections(one.at(), one.correction(), next.at(), next.correction());
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
    changes.add(sessions.get(0).at());
    for (DatedCorrections pair : dated) {
      changes.add(
          Instant.ofEpochMilli((pair.from().toEpochMilli() + pair.to().toEpochMilli()) / 2));
      changes.add(pair.to());
    }
    return changes;
  }

  /** The corrected value of a raw reading. Light, for example, is never below 0. */
  public double corrected(long instantMs, double reading) {
    double value = uncapped(instantMs, reading);
    return quantity == Quantity.TEMPERATURE ? value : Math.max(0, value);
  }

  private double uncapped(long instantMs, double reading) {
    return dated.isEmpty()
        ? first.corrected(reading)
        : pairAt(instantMs).corrected(instantMs, reading);
  }

  /** The first pair of sessions that has not ended by an instant, else the last pair. */
  private DatedCorrections pairAt(long instantMs) {
    int i = 0;
    while (i < dated.size() - 1 && dated.get(i).to().toEpochMilli() < instantMs) {
      i++;
    }
    return dated.get(i);
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
    return dated.isEmpty()
        ? first.uncertainty(reading, ofReading)
        : pairAt(at.toEpochMilli()).uncertainty(at, reading, ofReading);
  }

  /** The interval with about 95 % coverage, ±: two standard uncertainties (GUM 6.3.3). */
  public double expandedUncertainty(Instant at, double reading) {
    return Correction.COVERAGE_95 * uncertainty(at, reading);
  }

  /** A text of all points. Corrections with equal texts correct equally. */
  public String key() {
    List<Object> key = new ArrayList<>();
    for (CalibrationSession session : sessions) {
      for (CalibrationPoint point : session.points()) {
        key.add(List.of(point.at(), point.reading(), point.trueValue(), point.uncertainty()));
      }
    }
    return quantity + key.toString();
  }
}
