package tepidarium.light;

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
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** What must hold of light events for any record and limit. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class LightEventsProperties {
  /** Rounding of sums in double arithmetic, lux·h. */
  private static final double ROUNDING = 1e-9;

  private static final Duration JOIN = Duration.ofMinutes(20);

  @Provide
  Arbitrary<Double> limits() {
    return Arbitraries.of(0.0, 1.0, 15.0, 20.0, 30.0, 49.0);
  }

  @Property
  void eachReadingAboveTheLimitIsInExactlyOneEvent(
      @ForAll Samples raw, @ForAll("limits") double limit) {
    Samples light = light(raw);
    List<LightEvent> events = of(light, limit);
    for (int i = 0; i < light.size(); i++) {
      long at = light.atMs(i);
      long holding = events.stream().filter(event -> holds(event, at)).count();
      assertTrue(holding <= 1, "two events at once");
      assertTrue(light.value(i) <= limit || holding == 1, "a lit reading in no event");
    }
  }

  private static boolean holds(LightEvent event, long atMs) {
    Instant at = Instant.ofEpochMilli(atMs);
    Instant end = event.end();
    return !at.isBefore(event.start())
        && (end == null ? !at.isAfter(event.lastSeen()) : at.isBefore(end));
  }

  @Property
  void anEventStartsLitEndsDarkAndStaysDarkForTheJoinTime(
      @ForAll Samples raw, @ForAll("limits") double limit) {
    Samples light = light(raw);
    for (LightEvent event : of(light, limit)) {
      assertTrue(valueAt(light, event.start()) > limit);
      Instant end = event.end();
      if (end != null) {
        assertEquals(end, event.lastSeen());
        Instant dark = end.plus(JOIN);
        Samples after = light.between(end.toEpochMilli(), dark.toEpochMilli());
        for (int i = 0; i < after.size(); i++) {
          assertTrue(after.value(i) <= limit, "lit again at " + after.atMs(i));
        }
        assertTrue(light.lastMs() >= dark.toEpochMilli(), "not seen to stay dark");
      }
    }
  }

  @Property
  void thePeakAndTheDoseAreThoseOfTheReadingsOfTheEvent(
      @ForAll Samples raw, @ForAll("limits") double limit) {
    Samples light = light(raw);
    for (LightEvent event : of(light, limit)) {
      Span span = new Span(event.start(), event.lastSeen());
      Samples within = light.between(span.fromMs(), span.toMs() + 1);
      double peak = 0;
      for (int i = 0; i < within.size(); i++) {
        peak = Math.max(peak, within.value(i));
      }
      assertEquals(peak, event.peakLux());
      LightDose dose = LightDose.of(light, span, HALF_HOUR);
      assertEquals(dose.luxHours(), event.doseLuxHours(), ROUNDING);
      assertEquals(0, dose.gapMs(), "a gap within an event");
    }
  }

  @Property
  void theDoseOfTwoAdjoiningSpansIsThatOfBoth(@ForAll Samples raw, @ForAll Cuts cuts) {
    Samples light = light(raw);
    LightDose first = LightDose.of(light, Span.ofMillis(cuts.a(), cuts.b()), HALF_HOUR);
    LightDose second = LightDose.of(light, Span.ofMillis(cuts.b(), cuts.c()), HALF_HOUR);
    LightDose both = LightDose.of(light, Span.ofMillis(cuts.a(), cuts.c()), HALF_HOUR);
    assertEquals(both.luxHours(), first.luxHours() + second.luxHours(), ROUNDING);
    assertEquals(both.coveredMs(), first.coveredMs() + second.coveredMs());
    assertEquals(both.gapMs(), first.gapMs() + second.gapMs());
    assertEquals(cuts.c() - cuts.a(), both.coveredMs() + both.gapMs());
  }

  private static List<LightEvent> of(Samples light, double limit) {
    return LightEvents.of(light, limit, HALF_HOUR, JOIN);
  }

  private static double valueAt(Samples light, Instant at) {
    return light.valueAt(at.toEpochMilli(), HALF_HOUR.toMillis()).orElseThrow();
  }

  private static Samples light(Samples raw) {
    return SampleRecords.map(raw, value -> Math.max(0, value));
  }
}
