package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * How long a lot still keeps: counts down from the days that seed of its species keeps.
 *
 * @param daysLeft below 0 once that time is over
 */
public record Freshness(double keepsDays, String source, Instant keepsUntil, double daysLeft) {
  static final double MS_PER_DAY = 86_400_000.0;

  /** Null where the profile does not say how long seed keeps. */
  public static @Nullable Freshness of(Species species, Instant gatheredAt, Instant now) {
    Figure keeps = species.figures().get(Trait.KEEPS_DAYS);
    if (keeps == null) {
      return null;
    }
    Instant until = gatheredAt.plus(days(keeps.value()));
    double left = daysBetween(now, until);
    return new Freshness(keeps.value(), keeps.source(), until, left);
  }

  /** Days from one instant to another; below 0 where that is earlier. */
  public static double daysBetween(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / MS_PER_DAY;
  }

  static Duration days(double days) {
    return Duration.ofMillis(Math.round(days * MS_PER_DAY));
  }
}
