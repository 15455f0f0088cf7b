package tepidarium.pages;

import java.time.Duration;
import java.time.Instant;

/** Bodies of requests that write seeds down. */
final class SeedBodies {
  private SeedBodies() {}

  /** A lot of 100 seeds, gathered twelve days ago. */
  static String lot(String species) {
    return "{\"species\":\"%s\",\"seeds\":100,\"gatheredAt\":\"%s\",\"from\":\"ground\"}"
        .formatted(species, daysAgo(12));
  }

  /** A sowing of ten seeds in one container. */
  static String sowing(long lot, String container, int daysAgo) {
    return "{\"lot\":%d,\"at\":\"%s\",\"groups\":[{\"container\":\"%s\",\"seeds\":10}]}"
        .formatted(lot, daysAgo(daysAgo), container);
  }

  private static Instant daysAgo(int days) {
    return Instant.now().minus(Duration.ofDays(days));
  }
}
