package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class SpanTest {
  private static final Span SPAN = Span.ofMillis(10, 20);

  @Test
  void theStartIsIncludedAndTheEndIsNot() {
    assertTrue(SPAN.contains(Instant.ofEpochMilli(10)));
    assertTrue(SPAN.contains(Instant.ofEpochMilli(19)));
    assertFalse(SPAN.contains(Instant.ofEpochMilli(20)));
    assertFalse(SPAN.contains(Instant.ofEpochMilli(9)));
    assertEquals(Duration.ofMillis(10), SPAN.length());
  }

  @Test
  void anEndBeforeTheStartIsRefusedAndAnEmptySpanIsNot() {
    assertThrows(IllegalArgumentException.class, () -> Span.ofMillis(10, 9));
    assertEquals(Duration.ZERO, Span.ofMillis(10, 10).length());
  }

  @Test
  void spansThatOnlyTouchDoNotOverlap() {
    assertFalse(SPAN.overlaps(Span.ofMillis(20, 30)));
    assertFalse(SPAN.overlaps(Span.ofMillis(0, 10)));
    assertTrue(SPAN.overlaps(Span.ofMillis(19, 30)));
    assertTrue(SPAN.overlaps(Span.ofMillis(0, 11)));
    assertTrue(SPAN.overlaps(Span.ofMillis(12, 13)));
  }

  @Test
  void withinKeepsTheCommonPart() {
    assertEquals(Span.ofMillis(12, 20), SPAN.within(Span.ofMillis(12, 30)));
    assertEquals(Span.ofMillis(10, 13), SPAN.within(Span.ofMillis(0, 13)));
    assertEquals(Span.ofMillis(12, 13), SPAN.within(Span.ofMillis(12, 13)));
    assertEquals(SPAN, SPAN.within(Span.ofMillis(0, 99)));
    assertEquals(Duration.ZERO, SPAN.within(Span.ofMillis(40, 50)).length());
    assertEquals(Duration.ZERO, SPAN.within(Span.ofMillis(0, 5)).length());
  }
}
