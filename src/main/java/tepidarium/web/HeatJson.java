package tepidarium.web;

import java.time.Instant;
import tepidarium.container.Container;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.reading.Span;

/** Heat over a span, with what the gaps and the sensor leave open; °C·h and h. */
record HeatJson(
    Instant from,
    Instant to,
    double degreeHours,
    double coveredHours,
    double gapHours,
    double lower,
    double upper,
    double sensorError) {

  static HeatJson of(
      Span span, HeatSum sum, HeatRule rule, Container container, double temperatureErrorC) {
    return new HeatJson(
        span.from(),
        span.to(),
        sum.degreeHours(),
        sum.coveredHours(),
        sum.gapHours(),
        sum.lower(),
        sum.upper(rule, container.band().temperatureHighC()),
        sum.sensorError(temperatureErrorC));
  }
}
