package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;

import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import tepidarium.reading.RecordDomain;
import tepidarium.reading.RecordDomain.Cuts;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** What must hold of degree-hours for any record, any span and any base and ceiling. */
@Domain(RecordDomain.class)
@Domain(HeatRuleDomain.class)
@Domain(DomainContext.Global.class)
class DegreeHoursProperties {
  /** Rounding of sums below 1000 °C·h in double arithmetic, °C·h. */
  private static final double ROUNDING = 1e-9;

  private static final int SLICES = 500;

  /**
   * A sum over slices errs only in a slice with a crossing, by at most slope · slice² / 8: for 60
   * °C in half an hour 60 · 0.5 / (8 · 500²) °C·h, in each of 29 steps, for base and ceiling.
   */
  private static final double FINE_SUM = 60 * 0.5 / (8.0 * SLICES * SLICES) * 29 * 2;

  @Property
  void theHeatOfTwoAdjoiningSpansIsTheHeatOfBoth(
      @ForAll Samples record, @ForAll Cuts cuts, @ForAll HeatRule rule) {
    HeatSum first = heat(record, Span.ofMillis(cuts.a(), cuts.b()), rule);
    HeatSum second = heat(record, Span.ofMillis(cuts.b(), cuts.c()), rule);
    HeatSum both = heat(record, Span.ofMillis(cuts.a(), cuts.c()), rule);
    assertSame(both, first.plus(second));
  }

  @Property
  void everyMillisecondIsCoveredOrInAGap(
      @ForAll Samples record, @ForAll Span span, @ForAll HeatRule rule) {
    HeatSum sum = heat(record, span, rule);
    assertEquals(span.length().toMillis(), sum.coveredMs() + sum.gapMs());
    assertTrue(sum.hoursAboveBase() <= sum.coveredHours() + ROUNDING);
    assertTrue(sum.lower() <= sum.upper(rule, 34));
  }

  @Property
  void aHigherBaseNeverGivesMoreHeat(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll @DoubleRange(min = -15, max = 55) double base,
      @ForAll @DoubleRange(min = 0, max = 20) double more) {
    double low = heat(record, span, new HeatRule(base, null)).degreeHours();
    double high = heat(record, span, new HeatRule(base + more, null)).degreeHours();
    assertTrue(high >= 0 && high <= low + ROUNDING, high + " above " + low);
  }

  @Property
  void aCeilingNeverGivesMoreHeat(
      @ForAll Samples record, @ForAll Span span, @ForAll HeatRule rule) {
    double open = heat(record, span, new HeatRule(rule.baseC(), null)).degreeHours();
    double capped = heat(record, span, rule).degreeHours();
    assertTrue(capped >= -ROUNDING && capped <= open + ROUNDING, capped + " above " + open);
  }

  @Property
  void aReadingOnTheStraightLineChangesNothing(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll HeatRule rule,
      @ForAll @IntRange(max = 28) int step,
      @ForAll @DoubleRange(min = 0, max = 1) double share) {
    Assume.that(record.size() > step + 1);
    long length = record.atMs(step + 1) - record.atMs(step);
    Assume.that(length > 1 && length <= HALF_HOUR.toMillis());
    long at = record.atMs(step) + Math.min(length - 1, 1 + (long) (share * (length - 1)));
    double value = record.valueAt(at, HALF_HOUR.toMillis()).orElseThrow();
    Samples.Builder more = new Samples.Builder(record.size() + 1);
    more.addAll(record.between(Long.MIN_VALUE, at));
    more.add(at, value);
    more.addAll(record.between(at, Long.MAX_VALUE));
    assertSame(heat(record, span, rule), heat(more.build(), span, rule));
  }

  @Property
  void aConstantTemperatureGivesTheClosedForm(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll HeatRule rule,
      @ForAll @DoubleRange(min = -10, max = 50) double steadyC) {
    HeatSum sum = heat(SampleRecords.map(record, value -> steadyC), span, rule);
    double ceiling = rule.ceilingC() == null ? Double.MAX_VALUE : rule.ceilingC();
    double gain = Math.max(0, Math.min(steadyC, ceiling) - rule.baseC());
    assertEquals(gain * sum.coveredHours(), sum.degreeHours(), ROUNDING);
    assertEquals(steadyC > rule.baseC() ? sum.coveredHours() : 0, sum.hoursAboveBase(), ROUNDING);
  }

  @Property(tries = 150)
  void aFineSumAgrees(@ForAll Samples record, @ForAll Span span, @ForAll HeatRule rule) {
    assertEquals(fineSum(record, span, rule), heat(record, span, rule).degreeHours(), FINE_SUM);
  }

  /** The definition, added up in thin slices at their middles. */
  private static double fineSum(Samples record, Span span, HeatRule rule) {
    double sum = 0;
    for (int i = 1; i < record.size(); i++) {
      long t0 = record.atMs(i - 1);
      long t1 = record.atMs(i);
      double start = Math.max(t0, span.fromMs());
      double slice = (Math.min(t1, span.toMs()) - start) / SLICES;
      for (int k = 0; t1 - t0 <= HALF_HOUR.toMillis() && slice > 0 && k < SLICES; k++) {
        double share = (start + (k + 0.5) * slice - t0) / (t1 - t0);
        double value = record.value(i - 1) * (1 - share) + record.value(i) * share;
        double capped = rule.ceilingC() == null ? value : Math.min(value, rule.ceilingC());
        sum += Math.max(0, capped - rule.baseC()) * slice;
      }
    }
    return sum / 3_600_000;
  }

  private static HeatSum heat(Samples record, Span span, HeatRule rule) {
    return DegreeHours.of(record, span, rule, HALF_HOUR);
  }

  private static void assertSame(HeatSum expected, HeatSum actual) {
    assertEquals(expected.degreeHours(), actual.degreeHours(), ROUNDING);
    assertEquals(expected.hoursAboveBase(), actual.hoursAboveBase(), ROUNDING);
    assertEquals(expected.coveredMs(), actual.coveredMs());
    assertEquals(expected.gapMs(), actual.gapMs());
  }
}
