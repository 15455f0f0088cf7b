package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.germination.Shelf.day;
import static tepidarium.germination.Shelf.entry;

import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.stats.NoFit;

/** Heat along paths whose temperatures are known; every sum is worked out by hand. */
class HeatCountsTest {
  private static final double BASE_C = 15;
  private static final GroupId ONE = new GroupId(1, 1);
  private static final GroupId TWO = new GroupId(1, 2);

  private final Shelf shelf = new Shelf();
  private final ContainerId warm = shelf.container("warm", 27);
  private final ContainerId cool = shelf.container("cool", 21);

  private static Entry sown(ContainerId container, int seeds) {
    return entry(1, 0, new Act.Sown(1, null, List.of(new Act.Part(ONE, container, seeds))));
  }

  private static Entry check(GroupId group, double day, int germinated, int mouldy) {
    List<Culled> culled =
        mouldy == 0 ? List.of() : List.of(new Culled(mouldy, CullReason.MOULD, false));
    return entry(1, day, new Act.Checked(group, germinated, culled, 0, List.of()));
  }

  private static Entry move(
      double day, GroupId group, ContainerId to, Integer seeds, GroupId into, GroupId joinTo) {
    return entry(1, day, new Act.Moved(group, to, seeds, null, into, joinTo));
  }

  private static void assertDose(double least, double likely, double most, SeedHeat seedHeat) {
    assertEquals(least, seedHeat.least(), 1e-9, "least");
    assertEquals(likely, seedHeat.likely(), 1e-9, "likely");
    assertEquals(most, seedHeat.most(), 1e-9, "most");
  }

  @Test
  void heatIsCountedAlongThePathUntilEachCheck() {
    SowingTimeline timeline =
        SowingTimeline.of(
            List.of(
                sown(warm, 20),
                check(ONE, 2, 3, 0),
                move(3, ONE, cool, null, null, null),
                check(ONE, 5, 4, 1)));
    HeatCounts counts = shelf.counts(timeline);
    List<HeatCounts.Row> rows = counts.above(BASE_C);
    assertEquals(4, rows.size());
    assertSame(rows, counts.above(BASE_C), "worked out twice");
    // 12 °C above the base for 2 days; then 1 more, and 2 at 6 °C above it.
    double first = 12 * 48;
    double second = 12 * 72 + 6 * 48;
    assertDose(0, 0, 0, rows.get(0).from());
    assertDose(first, first, first, rows.get(0).to());
    assertDose(first, first, first, rows.get(1).from());
    assertDose(second, second, second, rows.get(1).to());
    assertEquals(Fate.CULLED, rows.get(2).data().fate());
    assertDose(first, first, first, rows.get(2).from());
    assertEquals(Fate.REMAINING, rows.get(3).data().fate());
    assertDose(second, second, second, rows.get(3).from());
    assertEquals(20, rows.stream().mapToInt(row -> row.data().count()).sum());
  }

  @Test
  void gapsAndTheSensorsErrorAreCarriedIntoTheHeat() {
    shelf.gap(warm, day(0.5), day(1));
    shelf.sensorsMayBeOffBy(0.5);
    SowingTimeline timeline = SowingTimeline.of(List.of(sown(warm, 20), check(ONE, 2, 3, 0)));
    HeatCounts.Row row = shelf.counts(timeline).above(BASE_C).get(0);
    assertTrue(row.known());
    // 36 h covered and 12 h not, at the most 18 °C above the base; ±0.5 °C for 36 h.
    assertDose(12 * 36 - 18, 12 * 48, 12 * 36 + 18 * 12 + 18, row.to());
    assertEquals(36, row.to().coveredHours(), 1e-9);
    assertEquals(12, row.to().gapHours(), 1e-9);
  }

  @Test
  void aPathWithoutReadingsIsNotKnown() {
    ContainerId blind = new ContainerId("blind");
    SowingTimeline timeline = SowingTimeline.of(List.of(sown(blind, 20), check(ONE, 2, 3, 0)));
    HeatCounts counts = shelf.counts(timeline);
    HeatCounts.Row row = counts.above(BASE_C).get(0);
    assertFalse(row.known());
    assertDose(0, 0, 18 * 48, row.to());
    HeatFit fit = HeatFit.of(BASE_C, counts);
    assertEquals(NoFit.UNMEASURED, fit.reason());
    assertTrue(counts.likely(BASE_C).isEmpty());
  }

  /** Fewer than half, so spread that nothing shows that the others never will. */
  @Test
  void aMedianFarBeyondTheLastCheckIsNotReported() {
    SowingTimeline few =
        SowingTimeline.of(
            List.of(
                sown(warm, 20),
                check(ONE, 1, 2, 0),
                check(ONE, 3, 1, 0),
                check(ONE, 5, 0, 0),
                check(ONE, 8, 1, 0)));
    HeatFit fit = HeatFit.of(BASE_C, shelf.counts(few));
    assertEquals(NoFit.BEYOND, fit.reason());
    assertNull(fit.model());
    assertNull(fit.median());
  }

  /** Found in two neighbouring intervals: with a final fraction the spread could be 0. */
  @Test
  void aReplacementFitStatesWhyTheFinalFractionIsRefused() {
    SowingTimeline few =
        SowingTimeline.of(
            List.of(sown(warm, 20), check(ONE, 1, 5, 0), check(ONE, 2, 5, 0), check(ONE, 5, 0, 0)));
    HeatFit fit = HeatFit.of(BASE_C, shelf.counts(few));
    assertNull(fit.reason());
    assertEquals(new NoFinalFraction(NoFit.NEIGHBOURING_CHECKS, false), fit.note());
  }

  @Test
  void seedsOfTwoPathsHaveTheMeanOfBoth() {
    SowingTimeline timeline =
        SowingTimeline.of(
            List.of(
                sown(warm, 20),
                move(1, ONE, cool, 5, TWO, null),
                move(3, TWO, warm, null, null, null),
                move(3.5, TWO, warm, null, null, ONE),
                check(ONE, 4, 2, 0)));
    HeatCounts.Row row = shelf.counts(timeline).above(BASE_C).get(0);
    double stayed = 12 * 96;
    double went = 12 * 48 + 6 * 48;
    assertDose(went, 0.75 * stayed + 0.25 * went, stayed, row.to());
    // Half a day before, they were last seen sound: all the way back at the sowing.
    assertDose(0, 0, 0, row.from());
  }

  @Test
  void aPartKeepsWhatTheWholeHadReceived() {
    SowingTimeline timeline =
        SowingTimeline.of(
            List.of(
                sown(warm, 20),
                check(ONE, 1, 0, 0),
                move(2, ONE, cool, 5, TWO, null),
                check(TWO, 3, 2, 0),
                check(TWO, 4, 0, 1)));
    List<HeatCounts.Row> rows = shelf.counts(timeline).above(BASE_C);
    double seen = 12 * 24;
    double found = 12 * 48 + 6 * 24;
    assertDose(seen, seen, seen, rows.get(0).from());
    assertDose(found, found, found, rows.get(0).to());
    assertDose(found, found, found, rows.get(1).from());
  }

  /** While nothing is known the least heat stands still, but the seeds did germinate. */
  @Test
  void aGapBetweenTwoChecksStillGivesAnEstimate() {
    shelf.gap(warm, day(1), day(2));
    SowingTimeline timeline =
        SowingTimeline.of(
            List.of(sown(warm, 20), check(ONE, 1, 2, 0), check(ONE, 2, 3, 0), check(ONE, 4, 5, 0)));
    HeatCounts.Row row = shelf.counts(timeline).above(BASE_C).get(1);
    assertEquals(row.from().lower(), row.to().lower(), 1e-9);
    ThermalTime.HeatInterval least = row.by(SeedHeat::least);
    assertTrue(least.to() > least.from());
    assertEquals(12 * 24, row.to().likely() - row.from().likely(), 1e-9);
    HeatFit fit = HeatFit.of(BASE_C, shelf.counts(timeline));
    assertTrue(fit.median().low() > 0 && fit.median().contains(fit.model().medianHeat()));
  }
}
