package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Counted by hand on a calendar; February of 2028 has 29 days. */
class FreshnessTest {
  private static final Instant GATHERED = Instant.parse("2028-02-25T06:00:00Z");

  private static Freshness at(String now) {
    Figure days = new Figure(7.5, "own results");
    Species species = new Species("pawpaw", "Pawpaw", Map.of(Trait.KEEPS_DAYS, days));
    return Freshness.of(species, GATHERED, Instant.parse(now));
  }

  @Test
  void seedKeepsForTheDaysOfItsSpeciesFromItsGathering() {
    Freshness fresh = at("2028-02-26T18:00:00Z");
    assertNotNull(fresh);
    assertEquals(Instant.parse("2028-03-03T18:00:00Z"), fresh.keepsUntil());
    assertEquals(6, fresh.daysLeft(), 1e-12);
    assertEquals(-0.25, at("2028-03-04T00:00:00Z").daysLeft(), 1e-12);
    Species unknown = new Species("oak", "Oak", Map.of());
    assertNull(Freshness.of(unknown, GATHERED, GATHERED));
  }
}
