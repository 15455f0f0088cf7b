package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GerminationData.Row;
import tepidarium.stats.Censored;

class GerminationDataTest {
  private static Row row(int group, double from, @Nullable Double to, int count) {
    Fate fate = to == null ? Fate.REMAINING : Fate.GERMINATED;
    return new Row(from, to, count, fate, new GroupId(1, group));
  }

  /** By hand: Σ n t / N with 2 at day 7, 3 at day 8 and 1 at day 14; pairs (1 + 3) of 15. */
  @Test
  void groupsWithDifferentCheckDaysAreMeasuredTogether() {
    GerminationData data =
        new GerminationData(
            20,
            List.of(row(1, 0, 7.0, 2), row(1, 7, 14.0, 1), row(2, 0, 8.0, 3), row(2, 8, null, 14)));
    GerminationMeasures measures = data.measures(List.of(14.0, 7.0, 8.0));
    assertEquals(52.0 / 6, measures.meanTime().orElseThrow(), 1e-12);
    assertEquals(4.0 / 15, measures.synchrony().orElseThrow(), 1e-12);
    assertEquals(0.3, measures.finalFraction(), 1e-12);
    // Group 1 was not looked at on day 8: its seed may be older than that.
    assertEquals(new Censored(7, 14, 1), data.intervals().get(1));
    assertTrue(data.intervals().get(3).open());
  }

  @Test
  void halfOfTheSownHadGerminatedBetweenTwoChecks() {
    List<Row> rows = List.of(row(1, 0, 7.0, 4), row(2, 0, 12.0, 1), row(1, 7, 9.0, 2));
    GerminationData data =
        new GerminationData(
            10, Stream.concat(rows.stream(), Stream.of(row(2, 12, null, 3))).toList());
    // Five can have germinated at once; of those found by day 9, the fifth had by then at the
    // latest.
    assertEquals(List.of(0.0, 9.0), data.halfOfSownBetween());
    Row culled = new Row(0, null, 30, Fate.CULLED, new GroupId(1, 1));
    GerminationData few = new GerminationData(50, List.of(row(1, 0, 7.0, 20), culled));
    assertNull(few.halfOfSownBetween(), "20 of 50 are less than half, whatever the culled would");
  }

  /** Those last seen at day 5 may have germinated just after it: the fifth of ten by day 5. */
  @Test
  void seedsLastSeenEarlierMayHaveBeenTheFirstHalf() {
    GerminationData data =
        new GerminationData(10, List.of(row(1, 15, 20.0, 5), row(2, 5, null, 5)));
    assertEquals(List.of(5.0, 20.0), data.halfOfSownBetween());
  }

  /** By hand: 3 of the 6 that were looked at, at days 7 and 14; the other 6 are no failures. */
  @Test
  void uncheckedSeedsAreNotCountedAsFailures() {
    GerminationData data =
        new GerminationData(
            12,
            List.of(
                row(1, 0, 7.0, 2), row(1, 7, 14.0, 1), row(1, 14, null, 3), row(2, 0, null, 6)));
    GerminationMeasures measures = data.measures(List.of(7.0, 14.0));
    assertEquals(0.5, measures.finalFraction(), 1e-12);
    assertEquals(100 * (2 / 7.0 + 1 / 14.0) / 6, measures.rateIndexPercent(), 1e-12);
  }

  @Test
  void checksAtTheInstantOfTheSowingOrOfAnotherCheckGiveIntervals() {
    GerminationData data =
        new GerminationData(3, List.of(row(1, 0, 0.0, 1), row(1, 3, 3.0, 1), row(1, 3, null, 1)));
    for (Censored interval : data.intervals()) {
      assertTrue(interval.left() < interval.right());
    }
    assertEquals(2, data.measures(List.of(0.0, 3.0, 3.0)).germinated());
  }

  @Test
  void withoutAnyCheckNothingIsMeasured() {
    GerminationData data = new GerminationData(5, List.of(row(1, 0, null, 5)));
    assertTrue(data.measures(List.of()).meanTime().isEmpty());
    assertEquals(0, data.measures(List.of()).germinated());
  }
}
