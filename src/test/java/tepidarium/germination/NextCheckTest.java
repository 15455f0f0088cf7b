package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.germination.Bench.SOWN;
import static tepidarium.germination.Bench.day;

import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Reason;

/** The intervals are common practice, no source. */
class NextCheckTest {
  private final Bench bench = new Bench();

  private static Species species(double firstDays) {
    Map<Trait, Figure> figures = new EnumMap<>(Trait.class);
    figures.put(Trait.BASE, new Figure(15, "x"));
    figures.put(Trait.OPTIMUM, new Figure(30, "x"));
    figures.put(Trait.FIRST_DAYS, new Figure(firstDays, "x"));
    figures.put(Trait.GIVE_UP_DAYS, new Figure(42, "x"));
    return new Species("pawpaw", "Pawpaw", figures);
  }

  private static final Species BARE = new Species("bare", "Bare", Map.of());

  private NextCheck next(Species species, GroupId group, NextCheck.Pace pace) {
    NextCheck next = NextCheck.of(species, SOWN, bench.state(group), pace);
    assertNotNull(next);
    return next;
  }

  @Test
  void theFirstCheckIsWhenTheFirstSeedsUsuallyGerminate() {
    GroupId group = bench.sow(10);
    assertEquals(day(7), next(BARE, group, null).at());
    assertEquals(day(10), next(species(10), group, null).at());
    assertEquals(day(3), next(species(1), group, null).at());
    NextCheck late = next(species(30), group, null);
    assertEquals(day(14), late.at());
    assertTrue(late.why().contains("mould"), late.why());
    assertEquals(
        List.of(Reason.of("usual-days", "days", 30.0), Reason.of("check-mould", "days", 14.0)),
        late.because());
  }

  @Test
  void theFirstCheckIsLaterInColderBags() {
    GroupId group = bench.sow(10);
    NextCheck.Pace at25Degrees = new NextCheck.Pace(48 * 10, 48);
    NextCheck next = next(species(6), group, at25Degrees);
    assertEquals(day(9), next.at());
    assertTrue(next.why().contains("about 9 days"), next.why());
    assertEquals(day(6), next(species(6), group, new NextCheck.Pace(48 * 15, 48)).at());
  }

  @Test
  void afterThatWeeklyAndSoonerWhileRootsGrow() {
    GroupId group = bench.sow(10);
    bench.check(group, 8, 0, 0, 0);
    assertEquals(day(15), next(species(6), group, null).at());
    bench.check(group, 15, 2, 0, 0);
    assertEquals(day(19), next(species(6), group, null).at());
  }

  @Test
  void theUsualGiveUpDayIsNotMissed() {
    GroupId group = bench.sow(10);
    bench.check(group, 38, 0, 0, 0);
    NextCheck last = next(species(6), group, null);
    assertEquals(day(42), last.at());
    assertTrue(last.why().contains("42 days"), last.why());
    bench.check(group, 42, 0, 0, 0);
    NextCheck over = next(species(6), group, null);
    assertEquals(day(49), over.at());
    assertTrue(over.why().contains("continue or stop"), over.why());
    assertEquals(
        List.of(Reason.of("week-after-check"), Reason.of("days-over", "days", 42.0)),
        over.because());
    assertEquals(Duration.ofDays(1), over.from(day(48)));
  }

  @Test
  void anEmptyGroupNeedsNoCheck() {
    GroupId group = bench.sow(2);
    bench.check(group, 8, 2, 0, 2);
    assertNull(NextCheck.of(BARE, SOWN, bench.state(group), null));
  }
}
