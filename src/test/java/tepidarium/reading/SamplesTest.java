package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.Pieces.gap;
import static tepidarium.reading.Pieces.line;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** Small records by hand; the longest gap is 10 ms unless said. */
class SamplesTest {
  private static final long MAX_GAP_MS = 10;

  private static final Samples RECORD = samples(100, 1, 110, 3, 121, 4, 125, 8);

  @Test
  void instantsThatDoNotAscendAreRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> Samples.of(new long[] {1, 1}, new double[] {0, 0}));
    assertThrows(
        IllegalArgumentException.class, () -> Samples.of(new long[] {2, 1}, new double[] {0, 0}));
    Samples.Builder builder = new Samples.Builder(2);
    builder.add(5, 0);
    assertThrows(IllegalArgumentException.class, () -> builder.add(5, 0));
  }

  @Test
  void asManyValuesAsInstantsAreNeeded() {
    assertThrows(
        IllegalArgumentException.class, () -> Samples.of(new long[] {1}, new double[] {0, 0}));
  }

  @Test
  void changingTheArraysAfterwardsChangesNothing() {
    long[] atMs = {1, 2};
    double[] values = {5, 6};
    Samples samples = Samples.of(atMs, values);
    atMs[0] = 99;
    values[0] = 99;
    assertSame(samples(1, 5, 2, 6), samples);
  }

  @Test
  void buildingOnAfterwardsChangesNothing() {
    Samples.Builder builder = new Samples.Builder(0);
    builder.add(1, 5);
    Samples built = builder.build();
    builder.add(2, 6);
    assertSame(samples(1, 5), built);
  }

  @Test
  void aWalkClipsLinesToTheSpanAndNamesGaps() {
    assertEquals(
        List.of(line(105, 2, 110, 3), gap(110, 121), line(121, 4, 123, 6)),
        Pieces.of(RECORD, Span.ofMillis(105, 123), MAX_GAP_MS));
  }

  @Test
  void aWalkStartsAndEndsWithGapsWhereTheRecordDoesNotReach() {
    assertEquals(
        List.of(
            gap(90, 100), line(100, 1, 110, 3), gap(110, 121), line(121, 4, 125, 8), gap(125, 130)),
        Pieces.of(RECORD, Span.ofMillis(90, 130), MAX_GAP_MS));
  }

  @Test
  void aStepAsLongAsTheMaximumGapIsALine() {
    assertEquals(List.of(line(110, 3, 121, 4)), Pieces.of(RECORD, Span.ofMillis(110, 121), 11));
  }

  @Test
  void aSpanInsideAGapIsOneGap() {
    assertEquals(List.of(gap(112, 120)), Pieces.of(RECORD, Span.ofMillis(112, 120), MAX_GAP_MS));
  }

  @Test
  void aSpanBesideTheRecordIsOneGap() {
    List<Span> beside =
        List.of(Span.ofMillis(0, 100), Span.ofMillis(125, 200), Span.ofMillis(300, 400));
    for (Span span : beside) {
      List<Pieces.Piece> pieces = Pieces.of(RECORD, span, MAX_GAP_MS);
      assertEquals(List.of(gap(span.fromMs(), span.toMs())), pieces);
    }
  }

  @Test
  void oneReadingCoversNothing() {
    assertEquals(
        List.of(gap(0, 5), gap(5, 9)), Pieces.of(samples(5, 1), Span.ofMillis(0, 9), MAX_GAP_MS));
  }

  @Test
  void anEmptyRecordIsOneGapAndAnEmptySpanIsNothing() {
    assertEquals(List.of(gap(1, 9)), Pieces.of(Samples.EMPTY, Span.ofMillis(1, 9), MAX_GAP_MS));
    assertEquals(List.of(), Pieces.of(RECORD, Span.ofMillis(105, 105), MAX_GAP_MS));
  }

  @Test
  void theValueAtAnInstantLiesOnTheStraightLine() {
    assertEquals(OptionalDouble.of(2), RECORD.valueAt(105, MAX_GAP_MS));
    assertEquals(OptionalDouble.of(3), RECORD.valueAt(110, MAX_GAP_MS));
    assertEquals(OptionalDouble.of(1), RECORD.valueAt(100, MAX_GAP_MS));
    assertEquals(OptionalDouble.of(8), RECORD.valueAt(125, MAX_GAP_MS));
  }

  @Test
  void thereIsNoValueInAGapOrBesideTheRecord() {
    for (long at : new long[] {99, 111, 120, 126}) {
      assertTrue(RECORD.valueAt(at, MAX_GAP_MS).isEmpty(), "at " + at);
    }
    assertTrue(Samples.EMPTY.valueAt(1, MAX_GAP_MS).isEmpty());
  }

  @Test
  void betweenIncludesItsStartAndExcludesItsEnd() {
    assertSame(samples(110, 3, 121, 4), RECORD.between(110, 125));
    assertSame(Samples.EMPTY, RECORD.between(111, 121));
    assertSame(Samples.EMPTY, RECORD.between(125, 110));
  }

  @Test
  void aroundKeepsTheNeighbourOnEitherSide() {
    assertSame(samples(110, 3, 121, 4, 125, 8), RECORD.around(112, 122));
    assertSame(samples(100, 1, 110, 3), RECORD.around(101, 105));
    assertSame(RECORD, RECORD.around(0, 500));
    assertSame(Samples.EMPTY, Samples.EMPTY.around(0, 1));
  }

  @Test
  void aCalibrationMovesEveryValueAndNoInstant() {
    assertSame(samples(1, 4.5, 2, 5.5), samples(1, 5, 2, 6).plus(-0.5));
    assertSame(RECORD, RECORD.plus(0));
  }

  @Test
  void anotherSensorFillsGapsAndBothEndsButNothingElse() {
    Samples first = samples(100, 1, 105, 1, 120, 1, 125, 1);
    Samples second = samples(90, 2, 103, 2, 105, 2, 112, 2, 119, 2, 120, 2, 123, 2, 130, 2);
    assertSame(
        samples(90, 2, 100, 1, 105, 1, 112, 2, 119, 2, 120, 1, 125, 1, 130, 2),
        first.gapsFilledFrom(second, MAX_GAP_MS));
  }

  @Test
  void readingsOfTheFirstSensorTakePrecedence() {
    Samples first = samples(100, 1, 120, 1);
    assertSame(first, first.gapsFilledFrom(samples(100, 2, 120, 2), MAX_GAP_MS));
  }

  @Test
  void fillingGapsOfOrFromAnEmptyRecordChangesNothing() {
    assertSame(RECORD, RECORD.gapsFilledFrom(Samples.EMPTY, MAX_GAP_MS));
    assertSame(RECORD, Samples.EMPTY.gapsFilledFrom(RECORD, MAX_GAP_MS));
    assertTrue(Samples.EMPTY.gapsFilledFrom(Samples.EMPTY, MAX_GAP_MS).isEmpty());
  }

  @Test
  void manySamplesFitIntoASmallBuilder() {
    Samples.Builder builder = new Samples.Builder(1);
    for (int i = 0; i < 1000; i++) {
      builder.add(i, i / 2.0);
    }
    Samples built = builder.build();
    assertEquals(1000, built.size());
    assertEquals(499.5, built.value(999));
    assertEquals(999, built.lastMs());
  }

  private static Samples samples(double... pairs) {
    Samples.Builder builder = new Samples.Builder(pairs.length / 2);
    for (int i = 0; i < pairs.length; i += 2) {
      builder.add((long) pairs[i], pairs[i + 1]);
    }
    return builder.build();
  }

  private static void assertSame(Samples expected, Samples actual) {
    assertEquals(Pieces.steps(expected), Pieces.steps(actual));
  }

  @Test
  void whatIsLeftOutMakesAGapHoweverShort() {
    Samples record = samples(100, 1, 105, 9, 106, 9, 108, 3, 112, 4);
    Samples without = record.without((atMs, value) -> value == 9);
    List<Pieces.Piece> expected = List.of(gap(100, 108), line(108, 3, 112, 4));
    Span span = Span.ofMillis(100, 112);
    assertEquals(expected, Pieces.of(without, span, MAX_GAP_MS));
    assertEquals(expected, Pieces.of(without.plus(1).plus(-1), span, MAX_GAP_MS));
    assertEquals(expected, Pieces.of(without.around(100, 112), span, MAX_GAP_MS));
    assertEquals(expected, Pieces.of(without.between(100, 113), span, MAX_GAP_MS));
    assertEquals(OptionalDouble.empty(), without.valueAt(104, MAX_GAP_MS));
    assertEquals(3, without.size());
  }

  @Test
  void anotherSeriesFillsWhatIsLeftOut() {
    Samples without = samples(100, 1, 105, 9, 110, 3).without((atMs, value) -> value == 9);
    Samples filled = without.gapsFilledFrom(samples(104, 2, 106, 2), MAX_GAP_MS);
    assertEquals(
        List.of(line(100, 1, 104, 2), line(104, 2, 106, 2), line(106, 2, 110, 3)),
        Pieces.of(filled, Span.ofMillis(100, 110), MAX_GAP_MS));
    Samples unfilled = without.gapsFilledFrom(samples(90, 2), MAX_GAP_MS);
    assertEquals(List.of(gap(100, 110)), Pieces.of(unfilled, Span.ofMillis(100, 110), MAX_GAP_MS));
  }
}
