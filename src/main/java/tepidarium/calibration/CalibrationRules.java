package tepidarium.calibration;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;

/** Refuses calibration points that give no usable correction. Each message names the remedy. */
public final class CalibrationRules {
  /** How far a point may lie in the future, because the clocks of browser and service differ. */
  private static final Duration CLOCK_TOLERANCE = Duration.ofMinutes(1);

  private CalibrationRules() {}

  /**
   * Checks the instant of a new point.
   *
   * @param firstHeard the sensor's earliest reading; null if it has sent none
   * @throws InvalidInput if the point lies in the future, or before the minute of the earliest
   *     reading
   */
  public static void checkTime(CalibrationPoint point, @Nullable Instant firstHeard, Instant now) {
    if (point.at().isAfter(now.plus(CLOCK_TOLERANCE))) {
      throw new InvalidInput(
          "at",
          "lies in the future (" + point.at() + "). Enter when the reading was taken",
          InputRule.FUTURE.with(now));
    }
    if (firstHeard == null) {
      throw new InvalidInput(
          "at",
          "cannot be used, because the sensor "
              + point.sensor()
              + " has not sent a reading yet. Switch it on first, and enter the reading that it shows",
          InputRule.SILENT.with(point.sensor().name()));
    }
    if (point.at().isBefore(firstHeard.truncatedTo(ChronoUnit.MINUTES))) {
      throw new InvalidInput(
          "at",
          "lies before the first reading of "
              + point.sensor()
              + " ("
              + firstHeard
              + "). Check the date",
          InputRule.BEFORE_FIRST.with(point.sensor().name(), firstHeard));
    }
  }

  /**
   * Checks the corrections that all points of one sensor and quantity give together.
   *
   * @throws InvalidInput if a session has two equal readings, or a gain too far from 1, or measures
   *     light without a point in the dark
   */
  public static void checkTogether(List<CalibrationPoint> points) {
    CalibrationSession.of(points).forEach(CalibrationRules::checkSession);
  }

  private static void checkSession(CalibrationSession session) {
    List<CalibrationPoint> points = session.points();
    Quantity quantity = points.get(0).quantity();
    List<Double> readings = new ArrayList<>();
    for (CalibrationPoint point : points) {
      if (readings.contains(point.reading())) {
        throw new InvalidInput(
            "reading",
            format(
                "is %s %s for two points within %d h, which give no gain. Take the second point at"
                    + " another true value, or remove the first",
                point.reading(), quantity.unit(), CalibrationSession.LONGEST_PAUSE.toHours()),
            InputRule.SAME_READING.with(
                point.reading(), quantity.unit(), CalibrationSession.LONGEST_PAUSE.toHours()));
      }
      readings.add(point.reading());
    }
    if (quantity == Quantity.LIGHT && points.stream().allMatch(point -> point.trueValue() > 0)) {
      throw new InvalidInput(
          "trueValue",
          "needs a point in the dark within "
              + CalibrationSession.LONGEST_PAUSE.toHours()
              + " h: without it, the correction would show light where there is none. Add the point"
              + " with the method dark first, and remove it last",
          InputRule.DARK_FIRST.with(CalibrationSession.LONGEST_PAUSE.toHours()));
    }
    if (points.size() > 1) {
      checkGain(session, quantity);
    }
  }

  private static void checkGain(CalibrationSession session, Quantity quantity) {
    double gain =
        Correction.slope(session.points().stream().map(CalibrationPoint::fixedPoint).toList());
    double greatest = TypicalSensor.greatestGain(quantity);
    if (!(gain > 0)) {
      throw new InvalidInput(
          "reading",
          format(
              "gives a gain of %.3f together with the other points of the session: the reading must"
                  + " rise with the true value. Check whether reading and true value are swapped"
                  + " between two points",
              gain),
          InputRule.SWAPPED.with());
    }
    if (gain > greatest || gain < 1 / greatest) {
      throw new InvalidInput(
          "reading",
          format(
              "gives a gain of %.3f together with the other points of the session; %.2f to %.2f is"
                  + " allowed for %s. Check readings and true values, take the points further apart,"
                  + " or replace the sensor",
              gain, 1 / greatest, greatest, quantity.key()),
          InputRule.GAIN.with(gain, 1 / greatest, greatest));
    }
  }

  private static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
