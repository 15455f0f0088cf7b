package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.function.ToDoubleFunction;
import tepidarium.reading.Span;

/**
 * A container opened to count its seeds, and what that does to it: light falls in, warm moist air
 * goes out and comes back once the lid is on.
 *
 * @param illuminanceLux lux while it is open
 */
record ContainerCheck(Span span, double illuminanceLux) {
  static final Duration LENGTH = Duration.ofMinutes(6);
  private static final double COOLING_C = 1.5;
  private static final double DRYING_PERCENT = 9;
  private static final double RECOVERY_HOURS = 0.25;

  static double lux(List<ContainerCheck> checks, Instant at) {
    return sum(checks, check -> check.span.contains(at) ? check.illuminanceLux : 0);
  }

  static double cooledBy(List<ContainerCheck> checks, Instant at) {
    return COOLING_C * sum(checks, check -> check.loss(at));
  }

  static double driedBy(List<ContainerCheck> checks, Instant at) {
    return DRYING_PERCENT * sum(checks, check -> check.loss(at));
  }

  private static double sum(List<ContainerCheck> checks, ToDoubleFunction<ContainerCheck> effect) {
    return checks.stream().mapToDouble(effect).sum();
  }

  /** From 0 at the start to 1 at the end of the check, then back with a time constant. */
  private double loss(Instant at) {
    if (at.isBefore(span.from())) {
      return 0;
    }
    double open = DemoCalendar.hours(span.from(), at) / DemoCalendar.hours(span.from(), span.to());
    return open <= 1 ? open : Math.exp(-DemoCalendar.hours(span.to(), at) / RECOVERY_HOURS);
  }
}
