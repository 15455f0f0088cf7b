package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The remaining storage life of a seed lot.
 *
 * @param keepsDays storage life of the species, days from gathering
 * @param daysLeft remaining days; negative after the end of the storage life
 */
public record Freshness(double keepsDays, String source, Instant keepsUntil, double daysLeft) {
  static final double MS_PER_DAY = 86_400_000.0;

  /** The storage life of a lot; null if the species profile does not state one. */
  public static @Nullable Freshness of(Species species, Instant gatheredAt, Instant now) {
    Figure keeps = species.figures().get(Trait.KEEPS_DAYS);
    if (keeps == null) {
      return null;
    }
    Instant until = gatheredAt.plus(days(keeps.value()));
    double daysLeft = daysBetween(now, until);
    return new Freshness(keeps.value(), keeps.source(), until, daysLeft);
  }

  /** Days from one instant to another; negative if the second is earlier. */
  public static double daysBetween(Instant from, Instant to) {
    return Duration.between(from, to).toMillis() / MS_PER_DAY;
  }

  static Duration days(double days) {
    return Duration.ofMillis(Math.round(days * MS_PER_DAY));
  }
}
