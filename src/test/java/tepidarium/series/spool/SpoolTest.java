package tepidarium.series.spool;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/** Tests when the spool tells that the store is up. */
class SpoolTest {
  private static final Duration SOON = Duration.ofSeconds(30);
  private static final int TRIES = 4;

  private final List<String> told = Collections.synchronizedList(new ArrayList<>());
  private final AtomicInteger refusals = new AtomicInteger(TRIES);

  /** It answers from the beginning, and has room again after some writes. */
  private final class Full implements Spool.Backend {
    @Override
    public void probe() {
      // It answers.
    }

    @Override
    public WriteResult write(List<Reading> batch) {
      if (refusals.getAndDecrement() > 0) {
        throw new StoreException("the disk is full", new IllegalStateException());
      }
      return new WriteResult(batch.size(), 0);
    }
  }

  private final class Told implements Spool.Listener {
    @Override
    public void reached() {
      told.add("reached");
    }

    @Override
    public void refused(List<RefusedReading> refused) {
      told.add("refused");
    }

    @Override
    public void forwarded(List<Reading> readings, WriteResult result) {
      told.add("forwarded");
    }
  }

  @Test
  void aStoreThatAnswersAndTakesNothingIsNotReached(@TempDir Path folder) {
    try (Spool spool =
        Spool.open(new Full(), folder.resolve("spool.db"), 1 << 20, Clock.systemUTC())) {
      spool.write(
          List.of(
              Readings.ofAir(
                  new SensorId("bag"),
                  Instant.parse("2026-03-31T20:00:00Z"),
                  20.0,
                  null,
                  null,
                  null)));
      spool.start(new Told());
      await().atMost(SOON).until(() -> spool.state().awaySince() == null);
      assertEquals(List.of("forwarded", "reached"), told);
    }
  }
}
