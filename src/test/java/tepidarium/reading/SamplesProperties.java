package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;

import java.util.List;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;

/** What must hold of any record and any span. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class SamplesProperties {
  private static final long MAX_GAP_MS = HALF_HOUR.toMillis();

  /** Rounding of an interpolated value, in the unit of the values. */
  private static final double ROUNDING = 1e-9;

  @Property
  void aWalkCoversTheSpanExactlyAndInOrder(@ForAll Samples record, @ForAll Span span) {
    long reached = span.fromMs();
    for (Pieces.Piece piece : Pieces.of(record, span, MAX_GAP_MS)) {
      assertEquals(reached, piece.startMs());
      assertTrue(piece.endMs() > piece.startMs(), "an empty piece");
      reached = piece.endMs();
    }
    assertEquals(span.toMs(), reached);
  }

  @Property
  void theEndsOfEachLineAreTheValuesThere(@ForAll Samples record, @ForAll Span span) {
    for (Pieces.Piece piece : Pieces.of(record, span, MAX_GAP_MS)) {
      if (!piece.isGap()) {
        assertEquals(valueAt(record, piece.startMs()), piece.startValue(), ROUNDING);
        assertEquals(valueAt(record, piece.endMs()), piece.endValue(), ROUNDING);
      }
    }
  }

  @Property
  void thereIsAValueInsideLinesAndNoneInsideGaps(@ForAll Samples record, @ForAll Span span) {
    for (Pieces.Piece piece : Pieces.of(record, span, MAX_GAP_MS)) {
      long middle = piece.startMs() + (piece.endMs() - piece.startMs()) / 2;
      if (piece.isGap() && middle > piece.startMs()) {
        assertTrue(record.valueAt(middle, MAX_GAP_MS).isEmpty());
      } else if (!piece.isGap()) {
        double share = (double) (middle - piece.startMs()) / (piece.endMs() - piece.startMs());
        double onLine = piece.startValue() + share * (piece.endValue() - piece.startValue());
        assertEquals(onLine, valueAt(record, middle), ROUNDING);
      }
    }
  }

  @Property
  void theSamplesAroundASpanAreEnoughToWalkIt(@ForAll Samples record, @ForAll Span span) {
    Samples around = record.around(span.fromMs(), span.toMs());
    assertEquals(Pieces.of(record, span, MAX_GAP_MS), Pieces.of(around, span, MAX_GAP_MS));
  }

  @Property
  void theSamplesBetweenAreThoseInTheSpan(@ForAll Samples record, @ForAll Span span) {
    List<SampleRecords.Step> expected =
        Pieces.steps(record).stream()
            .filter(sample -> sample.ms() >= span.fromMs() && sample.ms() < span.toMs())
            .toList();
    assertEquals(expected, Pieces.steps(record.between(span.fromMs(), span.toMs())));
  }

  @Property
  void fillingGapsKeepsEveryOwnSampleAndTakesOnlyWhereThereIsAGap(
      @ForAll Samples own,
      @ForAll Samples other,
      @ForAll @IntRange(min = 0, max = 60) int laterMinutes) {
    Samples second = later(other, 60_000L * laterMinutes);
    TreeMap<Long, Double> expected = new TreeMap<>();
    for (SampleRecords.Step sample : Pieces.steps(second)) {
      if (own.valueAt(sample.ms(), MAX_GAP_MS).isEmpty()) {
        expected.put(sample.ms(), sample.value());
      }
    }
    Pieces.steps(own).forEach(sample -> expected.put(sample.ms(), sample.value()));
    List<SampleRecords.Step> steps =
        expected.entrySet().stream()
            .map(entry -> new SampleRecords.Step(entry.getKey(), entry.getValue()))
            .toList();
    assertEquals(steps, Pieces.steps(own.gapsFilledFrom(second, MAX_GAP_MS)));
  }

  private static Samples later(Samples samples, long laterMs) {
    Samples.Builder builder = new Samples.Builder(samples.size());
    for (int i = 0; i < samples.size(); i++) {
      builder.add(samples.atMs(i) + laterMs, samples.value(i));
    }
    return builder.build();
  }

  private static double valueAt(Samples record, long atMs) {
    return record.valueAt(atMs, MAX_GAP_MS).orElseThrow();
  }
}
