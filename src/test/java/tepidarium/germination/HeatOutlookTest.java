package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.stats.Posterior;

/** What is to be expected of invented sowings whose truth is known. */
class HeatOutlookTest {
  private static final double BASE_C = 12;
  private static final Shelf.Truth TRUTH = new Shelf.Truth(BASE_C, 3_600, 0.2, 0.9);

  private static final double NEVER = Double.POSITIVE_INFINITY;

  private final Shelf shelf = new Shelf();

  private SowingTimeline sow(long sowing, int last) {
    return shelf.sow(sowing, new Random(5), TRUTH, 100, 1, last, 27);
  }

  private HeatOutlook outlook(SowingTimeline timeline, double nowDay) {
    return outlook(timeline, null, nowDay);
  }

  private HeatOutlook outlook(
      SowingTimeline timeline, Posterior.@Nullable Prior past, double nowDay) {
    HeatCounts counts = shelf.counts(timeline);
    HeatOutlook.Needs needs = HeatOutlook.needs(counts.above(BASE_C), past);
    return HeatOutlook.of(timeline, counts, BASE_C, needs, Shelf.day(nowDay));
  }

  /** Half of those that ever germinate do so after ten days at 27 °C. */
  @Test
  void theNextTenthComesWhenTheSimulationSaysSo() {
    SowingTimeline seen = sow(1, 10);
    HeatOutlook outlook = outlook(seen, 10);
    assertNull(outlook.none());
    HeatOutlook.Expected expected = outlook.expected().get(0);
    assertEquals(seen.sum(GroupState::ungerminated), expected.remaining());
    HeatForecast next = expected.next();
    assertEquals((expected.remaining() + 9) / 10, next.seeds());
    // The same seeds, looked at for longer.
    SowingTimeline later = sow(1, 20);
    int wanted = next.seeds();
    double came = Double.POSITIVE_INFINITY;
    int since = 0;
    for (GerminationData.Row row : later.data().rows()) {
      if (row.to() != null && row.to() > 10 && since < wanted) {
        since += row.count();
        came = (row.to() - 10) * 24;
      }
    }
    assertTrue(next.earliestHours() < came, next + " came by " + came);
    assertEquals(came - 12, next.hours(), 24);
    assertTrue(next.latestHours().orElse(NEVER) > came - 24, next + " came by " + came);
    assertEquals(15 * 24, expected.rate().likely(), 1e-9);
    assertTrue(expected.words().startsWith("If it stays as warm as in the last days, "));
    assertTrue(expected.words().contains(" of the " + expected.remaining() + " remaining seeds"));
  }

  @Test
  void lessHeatDelaysTheForecastAndUncertainHeatWidensIt() {
    SowingTimeline timeline = sow(1, 10);
    HeatForecast warm = outlook(timeline, 10).expected().get(0).next();
    shelf.sensorsMayBeOffBy(1);
    HeatOutlook.Expected unsure = outlook(timeline, 10).expected().get(0);
    assertEquals(14 * 24, unsure.rate().low(), 1e-9);
    assertEquals(16 * 24, unsure.rate().high(), 1e-9);
    assertTrue(unsure.next().earliestHours() < warm.earliestHours());
    shelf.sensorsMayBeOffBy(0);
    // From now on it lies in a container at 19.5 °C, where half as much heat comes in.
    ContainerId cool = shelf.container("cool", 19.5);
    List<Entry> entries = new ArrayList<>();
    timeline.steps().forEach(step -> entries.add(step.entry()));
    entries.add(Shelf.entry(1, 10, new Act.Moved(new GroupId(1, 1), cool, null, null, null, null)));
    HeatForecast slow = outlook(SowingTimeline.of(entries), 10).expected().get(0).next();
    assertEquals(2 * warm.hours(), slow.hours(), 0.1);
  }

  /** Two days after the last check some have germinated unseen. */
  @Test
  void possibleGerminationsSinceTheLastCheckCount() {
    SowingTimeline timeline = sow(1, 10);
    double before = outlook(timeline, 10).expected().get(0).next().hours();
    HeatOutlook.Expected since = outlook(timeline, 10.25).expected().get(0);
    assertEquals(before - 6, since.next().hours(), 0.1);
    HeatOutlook.Expected long2 = outlook(timeline, 12).expected().get(0);
    assertEquals(0, long2.next().hours());
    assertTrue(long2.words().contains("by now"), long2.words());
  }

  @Test
  void gapsMakeTheForecastLessCertain() {
    SowingTimeline timeline = sow(1, 12);
    HeatForecast exact = outlook(timeline, 12).expected().get(0).next();
    shelf.gap(shelf.container("bag-1-1", 27), Shelf.day(7.2), Shelf.day(8.9));
    HeatForecast unsure = outlook(timeline, 12).expected().get(0).next();
    assertTrue(
        unsure.latestHours().orElse(NEVER) - unsure.earliestHours()
            > exact.latestHours().orElseThrow() - exact.earliestHours(),
        exact + " " + unsure);
  }

  @Test
  void pastSowingsGiveAForecastBeforeTheFirstGermination() {
    SowingTimeline young = sow(2, 5);
    assertEquals(0, young.sum(GroupState::everGerminated));
    HeatOutlook alone = outlook(young, 5);
    assertTrue(alone.none().startsWith("too few seeds have germinated"), alone.none());
    HeatOutlook told =
        outlook(young, HeatFit.prior(List.of(shelf.counts(sow(1, 30)).above(BASE_C))), 5);
    HeatForecast next = told.expected().get(0).next();
    // A tenth of 100, that is a ninth of the 90 that do, needs about 2824 °C·h: 7.8 days.
    double left = 24 * (3_600 * Math.exp(-0.2 * 1.22) / (15 * 24) - 5);
    assertTrue(next.earliestHours() < left, next.toString());
    assertTrue(next.latestHours().isEmpty() || next.latestHours().getAsDouble() > left);
  }

  @Test
  void aMissingForecastHasAReason() {
    SowingTimeline timeline = sow(1, 10);
    shelf.gap(shelf.container("bag-1-1", 27), Shelf.day(9), Shelf.day(12));
    HeatOutlook silent = outlook(timeline, 10.2);
    assertTrue(silent.expected().isEmpty());
    assertEquals(
        "readings cover less than half of the last day in the container of these " + "seeds",
        silent.none());
    ContainerId cold = shelf.container("cold", 11);
    List<Entry> entries = new ArrayList<>();
    timeline.steps().forEach(step -> entries.add(step.entry()));
    entries.add(Shelf.entry(1, 10, new Act.Moved(new GroupId(1, 1), cold, null, null, null, null)));
    String none = outlook(SowingTimeline.of(entries), 11).none();
    assertEquals("the container is hardly ever warmer than the base temperature", none);
    SowingTimeline over = shelf.sow(3, new Random(5), TRUTH, 100, 1, 40, 27);
    assertTrue(outlook(over, 40).none().contains("less than a tenth"), outlook(over, 40).none());
    Shelf.Truth all = new Shelf.Truth(BASE_C, 3_600, 0.2, 1);
    SowingTimeline done = shelf.sow(4, new Random(5), all, 50, 1, 40, 27);
    assertEquals("no sound seeds remain", outlook(done, 40).none());
  }
}
