package tepidarium.calibration;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Points of one sensor and quantity that were taken close together, and their common correction: an
 * offset from one point, offset and gain from two or more.
 *
 * @param at the middle between the first and the last point
 * @param points in order of time, at least one
 */
public record CalibrationSession(Instant at, List<CalibrationPoint> points) {
  /**
   * Two neighbouring points further apart than this belong to two sessions. A salt jar needs hours,
   * so two salts may take two days. Common practice, no source.
   */
  public static final Duration LONGEST_PAUSE = Duration.ofDays(2);

  public CalibrationSession {
    points = List.copyOf(points);
  }

  /** The sessions of one sensor and quantity, in order of time. */
  public static List<CalibrationSession> of(List<CalibrationPoint> all) {
    List<CalibrationPoint> sorted =
        all.stream().sorted(Comparator.comparing(CalibrationPoint::at)).toList();
    List<CalibrationSession> sessions = new ArrayList<>();
    int start = 0;
    for (int i = 1; i <= sorted.size(); i++) {
      if (i == sorted.size() || isNewSession(sorted.get(i - 1), sorted.get(i))) {
        sessions.add(ofOneSession(sorted.subList(start, i)));
        start = i;
      }
    }
    return sessions;
  }

  private static boolean isNewSession(CalibrationPoint before, CalibrationPoint after) {
    return Duration.between(before.at(), after.at()).compareTo(LONGEST_PAUSE) > 0;
  }

  private static CalibrationSession ofOneSession(List<CalibrationPoint> points) {
    Instant first = points.get(0).at();
    Instant last = points.get(points.size() - 1).at();
    return new CalibrationSession(first.plus(Duration.between(first, last).dividedBy(2)), points);
  }

  /**
   * The correction from the points.
   *
   * @throws IllegalArgumentException if two or more points give no gain above 0
   */
  public Correction correction() {
    List<FixedPoint> fixed = points.stream().map(CalibrationPoint::fixedPoint).toList();
    return fixed.size() == 1
        ? Correction.ofOnePoint(
            fixed.get(0), TypicalSensor.gainUncertainty(points.get(0).quantity()))
        : Correction.ofPoints(fixed, 0);
  }
}
