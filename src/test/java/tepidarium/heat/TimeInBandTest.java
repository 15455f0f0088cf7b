package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.instant;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;
import static tepidarium.reading.SampleRecords.whole;

import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.CheckCase;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** The cases come from alarms.json, each with its own source; the rest is hand arithmetic. */
class TimeInBandTest {
  /** For times and sums a person can check by hand, h and °C·h. */
  private static final double BY_HAND = 1e-9;

  private static final Limit HIGH = Limit.high(31);
  private static final Duration JOIN = Duration.ofMinutes(5);

  static List<CheckCase> outside() {
    return CheckCase.of("alarms.json", "time_outside_band");
  }

  @ParameterizedTest
  @MethodSource("outside")
  void timeAndDegreeMinutesOutsideAgree(CheckCase check) {
    Samples record = SampleRecords.of(check.inputs("time_min"), check.inputs("value"), 60_000);
    Limit low = Limit.low(check.input().path("low").asDouble());
    Limit high = Limit.high(check.input().path("high").asDouble());
    expect(check, "above", TimeInBand.of(record, whole(record), high, Duration.ofHours(1), JOIN));
    expect(check, "below", TimeInBand.of(record, whole(record), low, Duration.ofHours(1), JOIN));
  }

  private static void expect(CheckCase check, String side, BandTime time) {
    String minutes = "minutes_" + side;
    String degrees = "degree_minutes_" + side;
    double beyond = time.excursions().stream().mapToDouble(Excursion::beyondHours).sum();
    double tolerance = check.tolerance();
    assertEquals(check.expected(minutes), time.outsideHours() * 60, tolerance, check.says(minutes));
    assertEquals(check.expected(degrees), beyond * 60, tolerance, check.says(degrees));
  }

  @Test
  void aValueExactlyOnTheLimitIsInside() {
    Samples onTheLimit = minutes(0, 31, 10, 31, 20, 31);
    for (Limit limit : List.of(Limit.low(31), Limit.high(31))) {
      BandTime time = of(onTheLimit, span(0, 20), limit);
      assertEquals(List.of(), time.excursions());
      assertEquals(OptionalDouble.of(1), time.fractionInside());
    }
  }

  @Test
  void aPeakExactlyOnTheLimitIsInside() {
    assertEquals(List.of(), of(minutes(0, 29, 10, 31, 20, 29), span(0, 20), HIGH).excursions());
  }

  @Test
  void anExcursionRunsFromCrossingToCrossing() {
    BandTime time = of(minutes(0, 30, 10, 32, 20, 34, 30, 30), span(0, 30), HIGH);
    Excursion excursion = only(time);
    assertEquals(instant(5), excursion.start());
    assertEquals(instant(27.5), excursion.end());
    assertEquals(22.5 / 60, excursion.hours(), BY_HAND);
    assertEquals(34, excursion.worst());
    assertEquals(instant(20), excursion.worstAt());
    // Triangles and a trapezoid: 5 · 1 / 2 + 10 · (1 + 3) / 2 + 7.5 · 3 / 2 °C·min.
    assertEquals((2.5 + 20 + 11.25) / 60, excursion.beyondHours(), BY_HAND);
    assertEquals(1 - 22.5 / 30, time.fractionInside().orElseThrow(), BY_HAND);
  }

  @Test
  void belowALowLimitTheLowestValueIsTheWorst() {
    Excursion excursion =
        only(of(minutes(0, 30, 10, 28, 20, 26, 30, 30), span(0, 30), Limit.low(29)));
    assertEquals(instant(5), excursion.start());
    assertEquals(instant(27.5), excursion.end());
    assertEquals(26, excursion.worst());
    assertEquals(instant(20), excursion.worstAt());
    assertEquals((2.5 + 20 + 11.25) / 60, excursion.beyondHours(), BY_HAND);
  }

  @Test
  void ofTwoEqualExtremesTheFirstIsTheWorst() {
    Excursion excursion =
        only(of(minutes(0, 30, 10, 33, 20, 32, 30, 33, 40, 30), span(0, 40), HIGH));
    assertEquals(instant(10), excursion.worstAt());
  }

  /** Outside from minute 5 to 15 and from 30 to 40: a quarter of an hour inside between them. */
  private static final Samples TWICE = minutes(0, 30, 10, 32, 20, 30, 25, 30, 35, 32, 45, 30);

  @Test
  void twoExcursionsAtMostTheJoinTimeApartAreOneAndTheTimeBetweenIsNotOutside() {
    Duration exactly = Duration.ofMinutes(15);
    BandTime time = TimeInBand.of(TWICE, span(0, 45), HIGH, HALF_HOUR, exactly);
    Excursion joined = only(time);
    assertEquals(instant(5), joined.start());
    assertEquals(instant(40), joined.end());
    assertEquals(20.0 / 60, joined.hours(), BY_HAND);
    assertEquals(10.0 / 60, joined.beyondHours(), BY_HAND);
    assertEquals(20.0 / 60, time.outsideHours(), BY_HAND);
  }

  @Test
  void twoExcursionsFurtherApartThanTheJoinTimeAreTwo() {
    Duration short1ms = Duration.ofMinutes(15).minusMillis(1);
    BandTime time = TimeInBand.of(TWICE, span(0, 45), HIGH, HALF_HOUR, short1ms);
    assertEquals(2, time.excursions().size());
    assertEquals(instant(15), time.excursions().get(0).end());
    assertEquals(instant(30), time.excursions().get(1).start());
  }

  @Test
  void aGapEndsAnExcursionUnseenAndTheNextOneStartsAtTheFirstMomentKnown() {
    BandTime time = of(minutes(0, 30, 10, 32, 60, 32, 70, 30), span(0, 70), HIGH);
    assertEquals(2, time.excursions().size());
    Excursion before = time.excursions().get(0);
    assertNull(before.end());
    assertEquals(5.0 / 60, before.hours(), BY_HAND);
    Excursion after = time.excursions().get(1);
    assertEquals(instant(60), after.start());
    assertEquals(instant(65), after.end());
    assertEquals(50 * 60_000, time.gapMs());
    assertEquals(20 * 60_000, time.coveredMs());
  }

  @Test
  void aGapAfterTheValueCameBackLeavesTheEndSeen() {
    BandTime time = of(minutes(0, 32, 10, 30, 60, 30), span(0, 60), HIGH);
    assertEquals(instant(5), only(time).end());
  }

  @Test
  void anExcursionStillGoingOnAtTheEndHasNoEnd() {
    assertNull(only(of(minutes(0, 30, 10, 32), span(0, 10), HIGH)).end());
    assertNull(only(of(minutes(0, 30, 10, 32, 20, 30), span(0, 12), HIGH)).end());
  }

  @Test
  void aSpanThatStartsInsideAnExcursionCountsItFromThere() {
    Excursion excursion = only(of(minutes(0, 36, 20, 32, 30, 30), span(10, 30), HIGH));
    assertEquals(instant(10), excursion.start());
    assertEquals(instant(25), excursion.end());
    assertEquals(15.0 / 60, excursion.hours(), BY_HAND);
    assertEquals(34, excursion.worst(), BY_HAND);
    assertEquals(instant(10), excursion.worstAt());
  }

  @Test
  void withoutReadingsNoFractionIsStated() {
    BandTime time = of(Samples.EMPTY, span(0, 60), HIGH);
    assertEquals(new BandTime(0, 3_600_000, 0, List.of()), time);
    assertTrue(time.fractionInside().isEmpty());
  }

  private static BandTime of(Samples record, Span span, Limit limit) {
    return TimeInBand.of(record, span, limit, HALF_HOUR, JOIN);
  }

  private static Excursion only(BandTime time) {
    assertEquals(1, time.excursions().size(), time.toString());
    return time.excursions().get(0);
  }
}
