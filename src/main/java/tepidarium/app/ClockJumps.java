package tepidarium.app;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Detects jumps of the wall clock by comparing it with the monotonic clock. To be used by one
 * thread.
 */
final class ClockJumps {
  /** Smallest difference that counts as a jump. Regular corrections by NTP are smaller. */
  private static final Duration MIN_JUMP = Duration.ofSeconds(90);

  private @Nullable Instant lastWall;
  private long lastNanos;

  /**
   * Returns the jump since the last call; zero if there was none, negative if the clock went back.
   *
   * @param monotonicNanos monotonic time, such as {@link System#nanoTime}
   */
  Duration measure(Instant wall, long monotonicNanos) {
    Instant before = lastWall;
    Duration passed = Duration.ofNanos(monotonicNanos - lastNanos);
    lastWall = wall;
    lastNanos = monotonicNanos;
    if (before == null) {
      return Duration.ZERO;
    }
    Duration jump = Duration.between(before, wall).minus(passed);
    return jump.abs().compareTo(MIN_JUMP) > 0 ? jump : Duration.ZERO;
  }
}
