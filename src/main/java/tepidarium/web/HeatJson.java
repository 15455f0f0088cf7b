package tepidarium.web;

import java.time.Instant;
import tepidarium.container.Container;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.SensorError;
import tepidarium.reading.Span;

/**
 * Heat over a span, in °C·h, with the uncertainty from gaps (lower, upper) and from the sensor's
 * error; times in h.
 */
public record HeatJson(
    Instant from,
    Instant to,
    double degreeHours,
    double coveredHours,
    double gapHours,
    double leftOutHours,
    double lower,
    double upper,
    double sensorError,
    double sensorLower,
    double sensorUpper) {

  /** Creates it; {@code upper} counts gaps at the high limit of the container's band. */
  public static HeatJson of(
      Span span, HeatSum sum, HeatRule rule, Container container, SensorError sensor) {
    return new HeatJson(
        span.from(),
        span.to(),
        sum.degreeHours(),
        sum.coveredHours(),
        sum.gapHours(),
        sum.leftOutHours(),
        sum.lower(),
        sum.upper(rule, container.band().temperatureHighC()),
        sensor.either(),
        Math.max(0, sum.degreeHours() - sensor.less()),
        sum.degreeHours() + sensor.more());
  }
}
