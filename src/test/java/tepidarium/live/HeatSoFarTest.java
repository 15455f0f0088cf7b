package tepidarium.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;
import tepidarium.rollup.Bench;

class HeatSoFarTest {
  private static final Instant NOW = Bench.START.plus(Duration.ofHours(10));
  private static final int LATE_SECONDS = 9 * 3_600 + 300;

  private final Bench bench = new Bench(NOW);
  private final HeatSoFar heat = new HeatSoFar(bench.history, bench.calibrated);

  HeatSoFarTest() {
    for (int minute = 0; minute <= 600; minute += 10) {
      bench.store(Bench.reading(minute * 60L, 30, 95, 0));
    }
  }

  private void arrives(long seconds, double temperature) {
    Reading reading = Bench.reading(seconds, temperature, 95, 0);
    bench.store(reading);
    heat.arrived(bench.container().id(), reading.at());
  }

  private double told(Instant now) {
    return heat.of(bench.container(), now).orElseThrow().heat().degreeHours();
  }

  private double exact(Instant now) {
    HeatRule rule = HeatRule.of(bench.container().settings());
    Span span = new Span(Bench.START, now);
    return DegreeHours.of(
            bench.calibrated.samples(bench.container().id(), Quantity.TEMPERATURE, span),
            span,
            rule,
            bench.calibrated.maxGap())
        .degreeHours();
  }

  @Test
  void theHeatIncludesOrderedAndLateReadings() {
    assertEquals(exact(NOW), told(NOW), 1e-9);
    arrives(LATE_SECONDS, 20);
    assertEquals(exact(NOW), told(NOW), 1e-9);
    Instant later = NOW.plusSeconds(900);
    arrives(36_600, 31);
    assertEquals(exact(later), told(later), 1e-9);
  }

  /**
   * Excluded from 1 h to 1:30 and from 9 h to 9:30: each leaves out these 30 min and 10 min on both
   * sides. The first comes from the hourly sums, the second from the newest readings.
   */
  @Test
  void itTellsWhatWasLeftOut() {
    assertEquals(0, leftOut(), 1e-9);
    decide(60, true);
    decide(540, true);
    assertEquals(2 * 50 / 60.0, leftOut(), 1e-9);
    decide(60, false);
    assertEquals(50 / 60.0, leftOut(), 1e-9);
    decide(540, false);
    assertEquals(0, leftOut(), 1e-9);
  }

  private void decide(int minute, boolean excluded) {
    Instant from = Bench.START.plusSeconds(minute * 60L);
    bench.register.decide(
        new FaultDecision(
            Bench.SENSOR,
            Quantity.TEMPERATURE,
            FaultKind.STUCK,
            from,
            from.plusSeconds(1_800),
            excluded,
            NOW,
            "Ada"));
    heat.invalidate(bench.container().id());
  }

  private double leftOut() {
    return heat.of(bench.container(), NOW).orElseThrow().heat().leftOutHours();
  }

  @Test
  void aReadingDuringTheCalculationIsNotMissed() {
    double before = told(NOW);
    heat.invalidate(bench.container().id());
    bench.readings.afterNextRead(() -> arrives(LATE_SECONDS, 20));
    told(NOW);
    assertTrue(exact(NOW) < before - 0.5);
    assertEquals(exact(NOW), told(NOW), 1e-9);
  }

  @Test
  void aFailedStoreLeavesTheSumUnchanged() {
    bench.readings.afterNextRead(
        () -> {
          throw new IllegalStateException("away");
        });
    assertThrows(IllegalStateException.class, () -> told(NOW));
    assertEquals(exact(NOW), told(NOW), 1e-9);
  }

  @Test
  void aSlowStoreDoesNotBlockIngestion() throws Exception {
    CountDownLatch reads = new CountDownLatch(1);
    CountDownLatch goOn = new CountDownLatch(1);
    bench.readings.afterNextRead(
        () -> {
          reads.countDown();
          try {
            assertTrue(goOn.await(30, TimeUnit.SECONDS));
          } catch (InterruptedException e) {
            throw new IllegalStateException(e);
          }
        });
    CompletableFuture<Double> page = CompletableFuture.supplyAsync(() -> told(NOW));
    assertTrue(reads.await(30, TimeUnit.SECONDS));
    CompletableFuture.runAsync(() -> heat.arrived(bench.container().id(), NOW))
        .get(30, TimeUnit.SECONDS);
    goOn.countDown();
    assertEquals(exact(NOW), page.get(30, TimeUnit.SECONDS), 1e-9);
  }
}
