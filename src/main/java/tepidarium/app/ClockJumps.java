package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** Measures jumps of the wall clock against the monotonic one. For one thread. */
final class ClockJumps {
  /** Corrections from the network stay below, a clock that was wrong does not. */
  private static final Duration JUMP = Duration.ofSeconds(90);

  private @Nullable Instant lastWall;
  private long lastNanos;

  /**
   * The jump since the last call; zero where there was none, negative where the clock went back.
   *
   * @param nanos time that no one can set
   */
  Duration take(Instant wall, long nanos) {
    Instant before = lastWall;
    Duration passed = Duration.ofNanos(nanos - lastNanos);
    lastWall = wall;
    lastNanos = nanos;
    if (before == null) {
      return Duration.ZERO;
    }
    Duration jump = Duration.between(before, wall).minus(passed);
    return jump.abs().compareTo(JUMP) > 0 ? jump : Duration.ZERO;
  }
}
