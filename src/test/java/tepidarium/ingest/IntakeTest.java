package tepidarium.ingest;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.ReadingSink;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

class IntakeTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");

  private final List<Reading> kept = new CopyOnWriteArrayList<>();
  private final List<Reject> rejects = new CopyOnWriteArrayList<>();
  private final AtomicInteger acknowledged = new AtomicInteger();
  private final AtomicInteger failures = new AtomicInteger();
  private volatile boolean rejectsFail;
  private Intake intake;

  private final RejectLog log =
      new RejectLog() {
        @Override
        public void add(List<Reject> more) {
          if (rejectsFail) {
            throw new IllegalStateException("another bug");
          }
          rejects.addAll(more);
        }

        @Override
        public List<Line> newest(int most) {
          return List.of();
        }
      };

  private void start(ReadingSink sink) {
    IngestCounters counters =
        new IngestCounters(log, "tepidarium", Clock.fixed(NOW, ZoneOffset.UTC));
    Decoder decoder = new Decoder("tepidarium", List.of(), 4_000_000);
    intake =
        new Intake(
            decoder,
            new SensorLimit(1_000, 0),
            sink,
            counters,
            press -> null,
            faults -> {},
            new HeardMessages(),
            stored -> {});
  }

  @AfterEach
  void stop() {
    intake.close();
  }

  private WriteResult keep(List<Reading> batch) {
    kept.addAll(batch);
    return new WriteResult(batch.size(), 0);
  }

  private void send(String sensor, String payload) throws InterruptedException {
    send(sensor, payload, acknowledged::incrementAndGet);
  }

  private void send(String sensor, String payload, Runnable acknowledge)
      throws InterruptedException {
    byte[] bytes = payload.getBytes(StandardCharsets.UTF_8);
    intake.take(new Message("tepidarium/" + sensor, bytes, MessageDelivery.LIVE, NOW), acknowledge);
  }

  private void settled(int messages) {
    await().until(() -> acknowledged.get() == messages && intake.counts().waiting() == 0);
    assertEquals(0, intake.counts().unaccounted());
    assertNull(intake.counts().imbalance());
  }

  @Test
  void aLostReadingMakesTheCountersDisagree() throws InterruptedException {
    start(batch -> new WriteResult(batch.size() - 1, 0));
    send("a", "{\"temperature\":30}");
    await().until(() -> acknowledged.get() == 1);
    assertEquals(new IntakeCounts(1, 0, 0, 0, 0), intake.counts());
    assertEquals(1, intake.counts().unaccounted());
    assertEquals(
        "1 received readings are neither stored, repeated, rejected nor waiting."
            + " Please report this with the log",
        intake.counts().imbalance());
  }

  @Test
  void aReadingInTheSpoolWaits() throws InterruptedException {
    start(batch -> WriteResult.queued(batch.size()));
    send("a", "{\"temperature\":30}");
    await().until(() -> acknowledged.get() == 1);
    assertEquals(new IntakeCounts(1, 0, 0, 0, 1), intake.counts());
    assertNull(intake.counts().imbalance());
  }

  @Test
  void aReadingIsAcknowledgedOnlyAfterTheStoreHasTakenIt() throws InterruptedException {
    start(
        batch -> {
          if (failures.incrementAndGet() <= 3) {
            assertEquals(0, acknowledged.get());
            throw new StoreException("away", new IllegalStateException());
          }
          return keep(batch);
        });
    send("a", "{\"temperature\":30}");
    settled(1);
    assertEquals(1, kept.size());
    assertEquals(4, failures.get());
  }

  @Test
  void aMessageThatCausesAnExceptionIsRejectedAndTheOthersAreStored() throws InterruptedException {
    start(
        batch -> {
          if (batch.stream().anyMatch(reading -> reading.sensor().name().equals("poison"))) {
            throw new IllegalStateException("a bug");
          }
          return keep(batch);
        });
    for (int i = 0; i < 20; i++) {
      send(i == 7 ? "poison" : "s" + i, "{\"temperature\":30}");
    }
    settled(20);
    assertEquals(19, kept.size());
    assertEquals(1, rejects.size());
    assertEquals("tepidarium/poison", rejects.get(0).topic());
    assertTrue(rejects.get(0).reason().contains("a bug"));
  }

  @Test
  void anOutOfMemoryErrorIsRetried() throws InterruptedException {
    start(
        batch -> {
          if (failures.incrementAndGet() <= 2) {
            throw new OutOfMemoryError("no memory left");
          }
          return keep(batch);
        });
    send("a", "{\"temperature\":30}");
    settled(1);
    assertEquals(1, kept.size());
    assertEquals(null, intake.trouble());
  }

  @Test
  void anEndedWriterIsReported() throws InterruptedException {
    start(
        batch -> {
          throw new IllegalStateException("a bug");
        });
    rejectsFail = true;
    send("a", "{\"temperature\":30}");
    await().until(() -> intake.trouble() != null);
    await().until(intake::hasEnded);
    assertTrue(String.valueOf(intake.trouble()).startsWith("readings are no longer stored"));
  }

  @Test
  void anUnreadableMessageIsLoggedAndAcknowledged() throws InterruptedException {
    start(this::keep);
    send("a", "{");
    send("b", "{\"temperature\":31}");
    settled(2);
    assertEquals(1, rejects.size());
    assertEquals(1, kept.size());
  }

  @Test
  void anAcknowledgementThatFailsEndsNothing() throws InterruptedException {
    start(this::keep);
    send(
        "a",
        "{\"temperature\":30}",
        () -> {
          throw new IllegalStateException("the link has gone");
        });
    send("b", "{\"temperature\":31}");
    settled(1);
    send("c", "{\"temperature\":32}");
    settled(2);
    assertEquals(3, kept.size());
  }

  @Test
  void closingStoresAllQueuedReadings() throws InterruptedException {
    start(this::keep);
    for (int i = 0; i < 500; i++) {
      send("s" + i, "{\"temperature\":30}");
    }
    intake.close();
    assertEquals(500, kept.size());
    assertEquals(500, acknowledged.get());
  }

  private static String backlog(int readings) {
    StringBuilder json = new StringBuilder("[{\"temperature\":30,\"at\":1700000000}");
    for (int i = 1; i < readings; i++) {
      json.append(",{\"temperature\":30,\"at\":").append(1_700_000_000L + i).append('}');
    }
    return json.append(']').toString();
  }

  @Test
  void aBacklogIsAcknowledgedOnlyAfterItsLastReadingIsDurable() throws InterruptedException {
    start(
        batch -> {
          if (kept.size() >= 5_000 && failures.get() < 2) {
            failures.incrementAndGet();
            throw new StoreException("away", new IllegalStateException());
          }
          return keep(batch);
        });
    AtomicInteger keptBefore = new AtomicInteger();
    send(
        "a",
        backlog(20_000),
        () -> {
          keptBefore.set(kept.size());
          acknowledged.incrementAndGet();
        });
    settled(1);
    assertEquals(20_000, keptBefore.get());
    assertEquals(2, failures.get());
  }

  /** A message of 1,000 refused values holds 1,000 faults in memory. */
  @Test
  void faultsTakeSpaceInTheQueue() {
    start(this::keep);
    ArrivalFault fault = ArrivalFault.ofValue(new SensorId("a"), Quantity.TEMPERATURE, NOW, -127);
    Decoded part =
        new Decoded(List.of(), List.of(), 0, null, null, Collections.nCopies(1_000, fault));
    assertEquals(251, Intake.permits(part));
  }

  @Test
  void aBacklogWaitsForTheStoreWithBoundedMemory() throws InterruptedException {
    CountDownLatch back = new CountDownLatch(1);
    start(
        batch -> {
          if (back.getCount() > 0) {
            throw new StoreException("away", new IllegalStateException());
          }
          return keep(batch);
        });
    String payload = backlog(90_000);
    CompletableFuture<Void> sending =
        CompletableFuture.runAsync(
            () -> {
              try {
                send("a", payload);
              } catch (InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    await().until(() -> intake.counts().received() >= 65_000);
    await()
        .during(Duration.ofMillis(300))
        .until(() -> intake.counts().received() < 67_000 && !sending.isDone());
    back.countDown();
    settled(1);
    assertEquals(90_000, kept.size());
  }
}
