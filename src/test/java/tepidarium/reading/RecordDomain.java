package tepidarium.reading;

import java.util.Arrays;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.domains.DomainContextBase;

/**
 * Records as cheap sensors make them: uneven steps, steps exactly as long as the longest gap (half
 * an hour) and a hair longer, long silences, repeated values and values on round limits. Spans and
 * cuts fall before, on, between and after the readings.
 */
public final class RecordDomain extends DomainContextBase {
  private static final long MINUTE_MS = 60_000;
  private static final long MAX_GAP_MS = SampleRecords.HALF_HOUR.toMillis();

  /** Three instants in order, ms. */
  public record Cuts(long a, long b, long c) {}

  @Provide
  Arbitrary<Samples> samples() {
    Arbitrary<Long> steps =
        Arbitraries.frequencyOf(
            Tuple.of(6, Arbitraries.longs().between(1, 30).map(n -> n * MINUTE_MS)),
            Tuple.of(3, Arbitraries.longs().between(1, MAX_GAP_MS)),
            Tuple.of(1, Arbitraries.of(1L, MAX_GAP_MS, MAX_GAP_MS + 1)),
            Tuple.of(1, Arbitraries.longs().between(MAX_GAP_MS + 1, 10 * MAX_GAP_MS)));
    Arbitrary<Double> values =
        Arbitraries.frequencyOf(
            Tuple.of(4, Arbitraries.doubles().between(-10, 50).ofScale(2)),
            Tuple.of(1, Arbitraries.of(0.0, 15.0, 20.0, 30.0)));
    return Combinators.combine(steps, values)
        .as(SampleRecords.Step::new)
        .list()
        .ofMaxSize(30)
        .map(SampleRecords::ofSteps)
        .withoutEdgeCases();
  }

  @Provide
  Arbitrary<Span> spans() {
    return Combinators.combine(instants(), instants())
        .as((a, b) -> Span.ofMillis(Math.min(a, b), Math.max(a, b)));
  }

  @Provide
  Arbitrary<Cuts> cuts() {
    return instants()
        .array(Long[].class)
        .ofSize(3)
        .map(
            picked -> {
              Arrays.sort(picked);
              return new Cuts(picked[0], picked[1], picked[2]);
            });
  }

  private static Arbitrary<Long> instants() {
    return Arbitraries.oneOf(
            Arbitraries.longs().between(-30, 900).map(n -> n * MINUTE_MS),
            Arbitraries.longs().between(-30 * MINUTE_MS, 900 * MINUTE_MS))
        .map(ms -> SampleRecords.START.toEpochMilli() + ms);
  }
}
