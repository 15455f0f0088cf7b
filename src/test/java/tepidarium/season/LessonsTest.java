package tepidarium.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.season.Results.report;
import static tepidarium.season.Results.sowing;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tepidarium.season.Results.Place;
import tepidarium.season.SowingResult.CulledFor;

class LessonsTest {
  private static List<String> kinds(SeasonReport report) {
    return report.lessons().stream().map(Lesson::kind).toList();
  }

  private static String words(SeasonReport report, String kind) {
    return report.lessons().stream()
        .filter(lesson -> lesson.kind().equals(kind))
        .findFirst()
        .orElseThrow()
        .words();
  }

  private static Place closet() {
    return Place.of("Closet", 480);
  }

  @Test
  void aSeasonWithoutProblemsHasNoLessons() {
    assertEquals(List.of(), report(List.of(sowing(1, 40, 20)), closet()).lessons());
  }

  /** 48 of 480 h are a tenth; 192 °C·h are half a day of 384. */
  @Test
  void coldIsReportedWithTheHeatLost() {
    SeasonReport report = report(List.of(), closet().cold(48, 192), Place.of("Jar", 480));
    assertEquals(List.of("cold"), kinds(report));
    assertEquals(
        "Closet was below 29.5 °C for 10 % of the measured time (48 h). Compared with that limit it"
            + " lost 192 °C·h, the heat of 0.5 average days.",
        words(report, "cold"));
    // 192 lost beside 16 °C × 480 h received.
    assertEquals(192.0 / (192 + 7_680), report.lessons().get(0).weight(), 1e-12);
  }

  @Test
  void fivePercentOfTheTimeGivesNoLesson() {
    assertEquals(List.of(), kinds(report(List.of(), closet().cold(24, 96).hot(24).dry(24))));
    assertEquals(
        List.of("hot", "dry", "cold"),
        kinds(report(List.of(), closet().cold(24.1, 1).hot(48).dry(30))));
  }

  @Test
  void lessThanOneDayGivesNoResult() {
    assertEquals(List.of(), kinds(report(List.of(), Place.of("Jar", 23).cold(23, 200))));
  }

  @Test
  void othersAreCountedAfterTheWorst() {
    SeasonReport report =
        report(
            List.of(),
            closet().cold(48, 100),
            Place.of("Jar", 480).cold(48, 300),
            Place.of("Bag", 480).cold(48, 50));
    assertTrue(words(report, "cold").startsWith("Jar was below"), words(report, "cold"));
    assertTrue(
        words(report, "cold").endsWith("The same applies to 2 others: 450 °C·h in total."),
        words(report, "cold"));
  }

  @Test
  void daylightOnSeveralMorningsAdvisesToCheckTheSeam() {
    assertEquals(List.of(), kinds(report(List.of(), closet().leaks("daylight", 1, 5))));
    SeasonReport report = report(List.of(), closet().leaks("daylight", 9, 40.25));
    assertEquals(
        "Daylight entered Closet on 9 days (40.3 lux·h). Turn the seam or the edge of the lid"
            + " away from the window.",
        words(report, "daylight"));
    assertEquals(9 / 20.0, report.lessons().get(0).weight(), 1e-12);
    assertEquals(List.of("light"), kinds(report(List.of(), closet().leaks("other", 2, 1))));
    assertEquals(List.of("lamp"), kinds(report(List.of(), closet().leaks("lamp", 2, 1))));
  }

  /** 120 h at 19 °C above the base are what the gap can have held. */
  @Test
  void aGapLeavesTheHeatOpen() {
    SeasonReport report = report(List.of(), closet().gap(120));
    assertEquals(
        "Closet had no readings for 120 of 600 h: its heat lies between 7680 °C·h and"
            + " 9960 °C·h.",
        words(report, "unheard"));
    assertEquals(0.2, report.lessons().get(0).weight(), 1e-12);
    assertEquals(List.of(), kinds(report(List.of(), Place.of("Jar", 24).gap(11))));
  }

  @Test
  void seedsWithoutASensorAreReported() {
    SeasonReport report = report(List.of(), closet(), Place.of("Jar", 0));
    assertEquals(List.of("blind"), kinds(report));
    assertEquals(0.5, report.lessons().get(0).weight());
  }

  @Test
  void mouldIsReportedOnlyIfItWasRecorded() {
    SeasonReport mould =
        report(List.of(sowing(1, 40, 20, new CulledFor("mould", 4), new CulledFor("dead", 1))));
    assertEquals(
        "5 of 40 seeds of Lychee, sowing 1 were discarded, 4 of them for mould.",
        words(mould, "culled"));
    assertTrue(
        words(report(List.of(sowing(1, 40, 20, new CulledFor("mould", 5)))), "culled")
            .endsWith("were discarded, all for mould."));
    SeasonReport dead = report(List.of(sowing(1, 40, 20, new CulledFor("dead", 5))));
    assertTrue(words(dead, "culled").contains("\"dead\" (5)"), words(dead, "culled"));
    assertEquals(List.of(), kinds(report(List.of(sowing(1, 40, 20, new CulledFor("mould", 4))))));
    assertEquals(List.of(), kinds(report(List.of(sowing(1, 40, 20, new CulledFor("taken", 9))))));
  }

  /**
   * 56 of 70 against 48 of 80: difference 0.2, interval 0.0524 to 0.3339. Source: Newcombe,
   * Statistics in Medicine 17 (1998) 873-890, table II, case (a), method 10.
   */
  @Test
  void aFoundDifferenceIsReported() {
    SeasonReport report = report(List.of(sowing(1, 70, 56), sowing(2, 80, 48)));
    assertEquals(
        "Lychee, sowing 1 did better than Lychee, sowing 2 by 20 percentage points (95 %: 5 to 33)."
            + " This difference is unlikely to be chance alone. The counts do not show the cause.",
        words(report, "sowings"));
    assertEquals(List.of("sowings"), kinds(report));
    SowingPair pair = report.pairs().get(0);
    assertEquals(0.0524, pair.difference().low(), 5e-5);
    assertEquals(0.3339, pair.difference().high(), 5e-5);
  }

  @Test
  void aSowingWithLessTimeIsMarkedAsSuch() {
    SeasonReport report = report(List.of(sowing(1, 70, 56), sowing(15.0, 2, 80, 48)));
    assertTrue(
        words(report, "sowings").endsWith("watched for different times: 20 and 15 days."),
        words(report, "sowings"));
  }

  /** Nobody looked at the second: that none germinated there is not known. */
  @Test
  void uncheckedSeedsAreNotCountedAsFailures() {
    SeasonReport report = report(List.of(sowing(1, 40, 30), sowing(null, 2, 40, 0)));
    assertEquals(List.of(), report.pairs());
    SpeciesResult lychee = report.species().get(0);
    assertEquals(80, lychee.sown());
    assertEquals(40, lychee.unchecked());
    assertEquals(0.75, lychee.fraction().value(), 1e-12);
    assertNull(report(List.of(sowing(null, 2, 40, 0))).species().get(0).fraction());
  }

  /** Both have 40 of 50 of the seeds that were looked at; 50 more of the first were not. */
  @Test
  void anUncheckedBoxDoesNotChangeTheResult() {
    SeasonReport report = report(List.of(sowing(40.0, 1, 100, 50, 40), sowing(40.0, 2, 50, 0, 40)));
    SowingPair pair = report.pairs().get(0);
    assertEquals(0, pair.difference().value(), 1e-12);
    assertEquals(1, pair.fisherP(), 1e-12);
    assertEquals(50, pair.fewestSeeds());
    SpeciesResult lychee = report.species().get(0);
    assertEquals(50, lychee.unchecked());
    assertEquals(0.8, lychee.fraction().value(), 1e-12);
  }

  @Test
  void aPairWithoutAVerdictStatesTheSeedsNeeded() {
    SeasonReport report = report(List.of(sowing(1, 20, 5), sowing(2, 30, 10)));
    Long needed = report.pairs().get(0).seedsEach();
    assertTrue(words(report, "undecided").contains("about " + needed + " seeds; the smaller"));
    assertEquals(0, report.lessons().get(0).weight());
    SeasonReport same = report(List.of(sowing(1, 20, 5), sowing(2, 40, 10)));
    assertTrue(words(same, "undecided").contains("does not prove that they are equal"));
  }

  @Test
  void thePairsShownDoNotDependOnTheirResults() {
    List<SowingResult> sowings =
        IntStream.rangeClosed(1, 6).mapToObj(i -> sowing(i, 10 * i, i == 1 ? 10 : 0)).toList();
    SeasonReport report = report(sowings);
    assertEquals(SowingPair.MAX_PAIRS, report.pairs().size());
    assertEquals(3, report.pairsLeftOut());
    // Ten of the fifteen pairs have at least 20 seeds on each side; two more fill the page.
    assertEquals(10, report.pairs().stream().filter(pair -> pair.fewestSeeds() >= 20).count());
  }

  @Test
  void atMostEightLessonsAreGiven() {
    SeasonReport report =
        report(
            List.of(
                sowing(1, 70, 56, new CulledFor("mould", 10)),
                sowing(2, 80, 48),
                sowing(3, 80, 47)),
            closet().cold(48, 192).hot(48).dry(48).gap(100),
            Place.of("Jar", 0),
            Place.of("Bag", 480).leaks("daylight", 9, 1),
            Place.of("Box", 480).leaks("lamp", 9, 1));
    assertEquals(Lessons.MAX_LESSONS, report.lessons().size());
    List<Double> weights = report.lessons().stream().map(Lesson::weight).toList();
    assertEquals(weights.stream().sorted((a, b) -> Double.compare(b, a)).toList(), weights);
  }
}
