package tepidarium.app.demo;

import java.time.Instant;

/** A quantity as a pure function of time, in the unit that its owner names. */
@FunctionalInterface
interface Signal {
  double at(Instant instant);
}
