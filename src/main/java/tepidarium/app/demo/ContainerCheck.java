package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.function.ToDoubleFunction;
import tepidarium.reading.Span;

/**
 * An opening of a container to count its seeds, with its effects: light enters, and temperature and
 * humidity fall and then recover.
 *
 * @param illuminanceLux illuminance while the container is open, lux
 */
record ContainerCheck(Span span, double illuminanceLux) {
  static final Duration LENGTH = Duration.ofMinutes(6);
  private static final double COOLING_C = 1.5;
  private static final double DRYING_PERCENT = 9;
  private static final double RECOVERY_HOURS = 0.25;

  static double addedLux(List<ContainerCheck> checks, Instant at) {
    return sum(checks, check -> check.span.contains(at) ? check.illuminanceLux : 0);
  }

  static double coolingC(List<ContainerCheck> checks, Instant at) {
    return COOLING_C * sum(checks, check -> check.effectShare(at));
  }

  static double dryingPercent(List<ContainerCheck> checks, Instant at) {
    return DRYING_PERCENT * sum(checks, check -> check.effectShare(at));
  }

  private static double sum(List<ContainerCheck> checks, ToDoubleFunction<ContainerCheck> effect) {
    return checks.stream().mapToDouble(effect).sum();
  }

  /**
   * Returns the share of the full cooling and drying: rises linearly from 0 to 1 during the check,
   * then decays exponentially.
   */
  private double effectShare(Instant at) {
    if (at.isBefore(span.from())) {
      return 0;
    }
    double openShare =
        DemoCalendar.hours(span.from(), at) / DemoCalendar.hours(span.from(), span.to());
    return openShare <= 1
        ? openShare
        : Math.exp(-DemoCalendar.hours(span.to(), at) / RECOVERY_HOURS);
  }
}
