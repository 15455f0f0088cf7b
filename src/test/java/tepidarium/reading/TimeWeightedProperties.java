package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import org.junit.jupiter.api.Test;
import tepidarium.reading.RecordDomain.Cuts;

/** Means over time depend on the course alone, not on how often it is reported. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class TimeWeightedProperties {
  private static final double EXACT = 1e-9;

  private static TimeWeighted of(Samples samples, Span span) {
    return TimeWeighted.of(samples, span, HALF_HOUR);
  }

  /** By hand: 30 min from 20 to 30 °C, a gap of an hour, then 10 min at 35 °C. */
  @Test
  void gapsAreLeftOut() {
    TimeWeighted told = of(minutes(0, 20, 30, 30, 90, 35, 100, 35), span(0, 100));
    assertEquals(40 * 60_000L, told.coveredMs());
    assertEquals((30 * 25 + 10 * 35) / 40.0, told.mean(), EXACT);
    double squares = 30 * (100 / 12.0 + 2.5 * 2.5) + 10 * 7.5 * 7.5;
    assertEquals(Math.sqrt(squares / 40), told.standardDeviation(), EXACT);
    assertEquals(20, told.min());
    assertEquals(35, told.max());
  }

  /** A saw tooth between a and b has the standard deviation |b − a| / √12 of a uniform spread. */
  @Test
  void aSawToothIsSpreadUniformly() {
    TimeWeighted told = of(minutes(0, 28, 10, 32, 20, 28, 30, 32), span(0, 30));
    assertEquals(30, told.mean(), EXACT);
    assertEquals(4 / Math.sqrt(12), told.standardDeviation(), EXACT);
  }

  @Test
  void aSteadyCourseHasNoSpread() {
    TimeWeighted told = of(minutes(0, 31.7, 7, 31.7, 20, 31.7, 41, 31.7), span(3, 40));
    assertEquals(31.7, told.mean());
    assertEquals(0, told.standardDeviation());
  }

  @Property
  void samplesAddedOnTheLineDoNotChangeTheResult(
      @ForAll Samples record, @ForAll Span span, @ForAll long seed) {
    TimeWeighted seldom = of(record, span);
    same(seldom, of(Refined.of(record, HALF_HOUR.toMillis(), new Random(seed)), span));
  }

  @Property
  void partsJoinIntoTheWhole(@ForAll Samples record, @ForAll Cuts cuts) {
    TimeWeighted first = of(record, Span.ofMillis(cuts.a(), cuts.b()));
    TimeWeighted second = of(record, Span.ofMillis(cuts.b(), cuts.c()));
    same(of(record, Span.ofMillis(cuts.a(), cuts.c())), first.plus(second));
  }

  @Property(tries = 200)
  void theMeanAndTheSpreadAreThoseOfManyPointsOnTheLines(
      @ForAll Samples record, @ForAll Span span) {
    TimeWeighted told = of(record, span);
    double step = span.length().toMillis() / 20_000.0;
    double sum = 0;
    double squares = 0;
    int known = 0;
    for (int i = 0; i < 20_000 && step > 0; i++) {
      var value =
          record.valueAt(span.fromMs() + Math.round((i + 0.5) * step), HALF_HOUR.toMillis());
      if (value.isPresent()) {
        known++;
        sum += value.getAsDouble();
        squares += value.getAsDouble() * value.getAsDouble();
      }
    }
    if (told.coveredMs() > 3_600_000) {
      double mean = sum / known;
      double range = told.max() - told.min();
      double variance = told.standardDeviation() * told.standardDeviation();
      assertEquals(mean, told.mean(), 0.02 * range + EXACT);
      assertEquals(squares / known - mean * mean, variance, 0.02 * range * range + EXACT);
    }
  }

  private static void same(TimeWeighted expected, TimeWeighted told) {
    assertEquals(expected.coveredMs(), told.coveredMs());
    assertTrue(told.coveredMs() == 0 || told.standardDeviation() >= 0);
    assertEquals(expected.mean(), told.mean(), EXACT);
    assertEquals(expected.standardDeviation(), told.standardDeviation(), EXACT);
    assertEquals(expected.min(), told.min(), EXACT);
    assertEquals(expected.max(), told.max(), EXACT);
  }
}
