package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import tepidarium.reading.RecordDomain;
import tepidarium.reading.RecordDomain.Cuts;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;

/** What must hold of time in band for any record, span and limit. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class TimeInBandProperties {
  /** Rounding of sums of hours in double arithmetic, h and °C·h. */
  private static final double ROUNDING = 1e-9;

  private static final double ROUNDING_MS = 1e-3;

  @Provide
  Arbitrary<Double> limits() {
    return Arbitraries.oneOf(
        Arbitraries.doubles().between(-10, 50).ofScale(1), Arbitraries.of(0.0, 15.0, 20.0, 30.0));
  }

  @Provide
  Arbitrary<Duration> joins() {
    return Arbitraries.of(0, 60, 600, 3600).map(Duration::ofSeconds);
  }

  @Property
  void aboveAndBelowAndExactlyOnTheLimitMakeUpTheCoveredTime(
      @ForAll Samples record, @ForAll Span span, @ForAll("limits") double limit) {
    BandTime above = of(record, span, Limit.high(limit), Duration.ZERO);
    BandTime below = of(record, span, Limit.low(limit), Duration.ZERO);
    assertEquals(span.length().toMillis(), above.coveredMs() + above.gapMs());
    double everywhere = above.outsideMs() + below.outsideMs() + flatOn(record, span, limit);
    assertEquals((double) above.coveredMs(), everywhere, ROUNDING_MS);
  }

  @Property
  void insideAndOutsideMakeUpTheCoveredTime(
      @ForAll Samples record, @ForAll Span span, @ForAll("limits") double limit) {
    BandTime time = of(record, span, Limit.high(limit), Duration.ZERO);
    assertEquals(time.coveredMs() > 0, time.fractionInside().isPresent());
    double insideMs = time.fractionInside().orElse(0) * time.coveredMs();
    assertEquals((double) time.coveredMs(), insideMs + time.outsideMs(), ROUNDING_MS);
  }

  @Property
  void theExcursionsMakeUpTheTimeOutside(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll("limits") double limit,
      @ForAll Limit.Side side,
      @ForAll("joins") Duration join) {
    BandTime time = of(record, span, new Limit(side, limit), join);
    double hours = time.excursions().stream().mapToDouble(Excursion::hours).sum();
    assertEquals(time.outsideHours(), hours, ROUNDING);
  }

  @Property
  void theDegreeHoursBeyondAHighLimitAreTheHeatAboveIt(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll("limits") double limit,
      @ForAll("joins") Duration join) {
    BandTime time = of(record, span, Limit.high(limit), join);
    HeatSum heat = DegreeHours.of(record, span, new HeatRule(limit, null), HALF_HOUR);
    double beyond = time.excursions().stream().mapToDouble(Excursion::beyondHours).sum();
    assertEquals(heat.degreeHours(), beyond, ROUNDING);
    assertEquals(heat.hoursAboveBase(), time.outsideHours(), ROUNDING);
  }

  @Property
  void excursionsStandInOrderInsideTheSpanWithTheirWorstInsideThem(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll("limits") double limit,
      @ForAll Limit.Side side,
      @ForAll("joins") Duration join) {
    Instant earliest = span.from();
    for (Excursion excursion : of(record, span, new Limit(side, limit), join).excursions()) {
      Instant end = excursion.end() == null ? span.to() : excursion.end();
      assertTrue(!excursion.start().isBefore(earliest), "starts before the last one ended");
      assertTrue(!end.isBefore(excursion.start()) && !end.isAfter(span.to()));
      assertTrue(!excursion.worstAt().isBefore(excursion.start()));
      assertTrue(!excursion.worstAt().isAfter(end));
      assertTrue(new Limit(side, limit).outside(excursion.worst()));
      earliest = excursion.end() == null ? excursion.worstAt() : end;
    }
  }

  @Property
  void aLongerJoinTimeGivesNoMoreExcursionsAndTheSameTimeOutside(
      @ForAll Samples record, @ForAll Span span, @ForAll("limits") double limit) {
    List<BandTime> times =
        List.of(0, 60, 600, 3600).stream()
            .map(s -> of(record, span, Limit.high(limit), Duration.ofSeconds(s)))
            .toList();
    for (int i = 1; i < times.size(); i++) {
      assertTrue(times.get(i).excursions().size() <= times.get(i - 1).excursions().size());
      assertEquals(times.get(i - 1).outsideMs(), times.get(i).outsideMs(), ROUNDING_MS);
    }
  }

  @Property
  void theTimeOutsideOfTwoAdjoiningSpansIsThatOfBoth(
      @ForAll Samples record, @ForAll Cuts cuts, @ForAll("limits") double limit) {
    Limit low = Limit.low(limit);
    double first = of(record, Span.ofMillis(cuts.a(), cuts.b()), low, Duration.ZERO).outsideMs();
    double second = of(record, Span.ofMillis(cuts.b(), cuts.c()), low, Duration.ZERO).outsideMs();
    double both = of(record, Span.ofMillis(cuts.a(), cuts.c()), low, Duration.ZERO).outsideMs();
    assertEquals(both, first + second, ROUNDING_MS);
  }

  private static BandTime of(Samples record, Span span, Limit limit, Duration join) {
    return TimeInBand.of(record, span, limit, HALF_HOUR, join);
  }

  /** Time along lines that lie on the limit from end to end, ms. */
  private static double flatOn(Samples record, Span span, double limit) {
    double[] flat = {0};
    record.walk(
        span,
        HALF_HOUR.toMillis(),
        new SegmentVisitor() {
          @Override
          public void line(long startMs, double startValue, long endMs, double endValue) {
            if (startValue == limit && endValue == limit) {
              flat[0] += endMs - startMs;
            }
          }

          @Override
          public void gap(long startMs, long endMs) {}
        });
    return flat[0];
  }
}
