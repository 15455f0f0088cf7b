package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.heat.Limit;
import tepidarium.reading.Samples;

class PastExcursionTest {
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final Rule RULE =
      new Rule(Limit.low(29.5), 0.3, Duration.ofMinutes(10), Duration.ofMinutes(10));

  private static Instant minute(int minute) {
    return START.plusSeconds(minute * 60L);
  }

  /** Values five minutes apart. */
  private static Samples samples(double... values) {
    Samples.Builder builder = new Samples.Builder(values.length);
    for (int i = 0; i < values.length; i++) {
      builder.add(minute(5 * i).toEpochMilli(), values[i]);
    }
    return builder.build();
  }

  private static List<PastExcursion> in(Samples samples) {
    return PastExcursion.in(samples, RULE, GAP, at -> true);
  }

  @Test
  void anExcursionHasItsBeginItsRaiseItsEndAndItsWorst() {
    assertEquals(
        List.of(new PastExcursion(minute(5), minute(15), minute(30), 20)),
        in(samples(31, 28, 20, 29, 31, 31, 31, 31)));
  }

  @Test
  void anExcursionShorterThanTheDelayIsNone() {
    assertEquals(List.of(), in(samples(31, 28, 28, 31, 31)));
    assertEquals(List.of(), in(Samples.EMPTY));
  }

  @Test
  void anExcursionWithoutAnEndEndsWithTheLastReading() {
    assertEquals(
        List.of(new PastExcursion(minute(0), minute(10), minute(15), 27)),
        in(samples(28, 28, 28, 27)));
  }

  @Test
  void readingsThatDoNotCountAreNotEvaluated() {
    Samples cold = samples(28, 28, 28, 28, 31);
    assertEquals(List.of(), PastExcursion.in(cold, RULE, GAP, at -> at.isBefore(minute(10))));
  }
}
