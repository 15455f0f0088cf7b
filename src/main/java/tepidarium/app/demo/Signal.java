package tepidarium.app.demo;

import java.time.Instant;

/** A quantity as a pure function of time. The variable that holds it names the unit. */
@FunctionalInterface
interface Signal {
  double at(Instant instant);
}
