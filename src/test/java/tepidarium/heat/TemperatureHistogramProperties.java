package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import tepidarium.reading.RecordDomain;
import tepidarium.reading.RecordDomain.Cuts;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** What is told from times by temperature is what the readings tell. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class TemperatureHistogramProperties {
  private static final double RELATIVE = 1e-9;

  private static void same(HeatSum exact, HeatSum told) {
    double size = Math.max(1, exact.degreeHours());
    assertEquals(exact.degreeHours(), told.degreeHours(), RELATIVE * size);
    assertEquals(exact.coveredMs(), told.coveredMs());
    assertEquals(exact.gapMs(), told.gapMs());
  }

  @Property
  void theHeatAboveAnyQuarterOfADegreeIsExact(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll @IntRange(min = -40, max = 239) int base,
      @ForAll @IntRange(min = 1, max = 100) int more) {
    TemperatureHistogram histogram = TemperatureHistogram.of(record, span, HALF_HOUR);
    HeatRule open = new HeatRule(base / 4.0, null);
    HeatRule capped = new HeatRule(base / 4.0, Math.min(60, (base + more) / 4.0));
    assertTrue(TemperatureHistogram.isExact(open) && TemperatureHistogram.isExact(capped));
    same(DegreeHours.of(record, span, open, HALF_HOUR), histogram.heat(open));
    same(DegreeHours.of(record, span, capped, HALF_HOUR), histogram.heat(capped));
  }

  /** The cubic has the right values and slopes at the edges, where the truth is convex. */
  @Property
  void theHeatAboveAnyOtherBaseIsCloseToIt(
      @ForAll Samples record,
      @ForAll Span span,
      @ForAll @DoubleRange(min = -10, max = 59) double base) {
    HeatRule rule = new HeatRule(base, null);
    HeatSum exact = DegreeHours.of(record, span, rule, HALF_HOUR);
    HeatSum told = TemperatureHistogram.of(record, span, HALF_HOUR).heat(rule);
    assertTrue(told.degreeHours() >= -1e-9);
    assertEquals(exact.degreeHours(), told.degreeHours(), exact.coveredHours() / 16 + 1e-9);
  }

  @Property
  void partsAddUpAndSurviveSerialization(
      @ForAll Samples record, @ForAll Cuts cuts, @ForAll @IntRange(min = -40, max = 239) int base) {
    TemperatureHistogram first =
        TemperatureHistogram.of(record, Span.ofMillis(cuts.a(), cuts.b()), HALF_HOUR);
    TemperatureHistogram second =
        TemperatureHistogram.of(record, Span.ofMillis(cuts.b(), cuts.c()), HALF_HOUR);
    TemperatureHistogram kept =
        TemperatureHistogram.fromBytes(second.toBytes(), second.coveredMs(), second.gapMs(), 0);
    HeatRule rule = new HeatRule(base / 4.0, null);
    Span whole = Span.ofMillis(cuts.a(), cuts.c());
    same(
        DegreeHours.of(record, whole, rule, HALF_HOUR),
        TemperatureHistogram.sum(List.of(first, kept)).heat(rule));
  }
}
