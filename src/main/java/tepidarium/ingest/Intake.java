package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.Arrival;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/**
 * Stores the readings of incoming messages. The receiving thread decodes a message and adds it to a
 * queue. The writer thread collects a batch, commits it, then acknowledges its messages in the
 * order of arrival. A long message is queued in parts and acknowledged after its last part. The
 * queue is bounded by memory: while it is full, the receiving thread waits, and the broker stops
 * sending because messages are unacknowledged. While the store fails, the writer retries and
 * acknowledges nothing.
 */
public final class Intake implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Intake.class);

  /** Capacity of the queue in KiB of memory; each message counts as at least 1 KiB. */
  private static final int QUEUE_KIB = 16 * 1024;

  /** Number of readings or faults per KiB of memory, a cautious estimate. */
  private static final int READINGS_PER_KIB = 4;

  private static final int BATCH_READINGS = 5_000;
  private static final long BATCH_NANOS = Duration.ofMillis(100).toNanos();

  /**
   * A batch is committed when no message arrives for this long, so that a client with a small
   * window is not slowed down. The writer sleeps for this time instead of waiting, because
   * otherwise each message would wake it.
   */
  private static final long QUIET_NANOS = Duration.ofMillis(2).toNanos();

  /** Longest pause between retries; bounds the delay after the store is available again. */
  private static final Duration MAX_RETRY_PAUSE = Duration.ofSeconds(5);

  /** Longest wait for the writer thread at shutdown. */
  private static final Duration STOP_WAIT = Duration.ofSeconds(10);

  /**
   * A decoded message, or part of one, in the queue.
   *
   * @param permits its share of the queue's capacity, in KiB
   */
  private record Item(Decoded decoded, Instant arrivedAt, int permits, Runnable acknowledge) {
    int entries() {
      return decoded.readings().size() + decoded.refused();
    }
  }

  /**
   * Readings that have just been stored, and what their sensors reported about themselves.
   *
   * @param readings may be empty if there are statuses
   */
  public record Stored(List<Reading> readings, List<DeviceStatus> statuses, Instant arrivedAt) {}

  private final Decoder decoder;
  private final SensorLimit sensorLimit;
  private final ReadingSink sink;
  private final IngestCounters counters;
  private final ButtonSink buttons;
  private final Consumer<List<ArrivalFault>> faultStore;
  private final ArrivalFaults arrivalFaults = new ArrivalFaults();
  private final HeardMessages heard;
  private final Consumer<Stored> listener;
  private final LinkedBlockingQueue<Item> queue = new LinkedBlockingQueue<>();
  private final Semaphore space = new Semaphore(QUEUE_KIB);
  private final DistinctArrivals arrivals = new DistinctArrivals();
  private final Thread writer;
  private volatile boolean stopping;
  private volatile @Nullable String trouble;
  private volatile boolean ended;

  /**
   * Starts the writer thread.
   *
   * @param sensorLimit rejects readings of too many new sensor names
   * @param buttons records button presses; called on the writer thread
   * @param faultStore stores faults; called on the writer thread
   * @param heard keeps the messages that cannot be read, if a mapping rule could read them
   * @param listener receives readings after they are stored and acknowledged, on the writer thread
   */
  public Intake(
      Decoder decoder,
      SensorLimit sensorLimit,
      ReadingSink sink,
      IngestCounters counters,
      ButtonSink buttons,
      Consumer<List<ArrivalFault>> faultStore,
      HeardMessages heard,
      Consumer<Stored> listener) {
    this.decoder = decoder;
    this.sensorLimit = sensorLimit;
    this.sink = sink;
    this.counters = counters;
    this.buttons = buttons;
    this.faultStore = faultStore;
    this.heard = heard;
    this.listener = listener;
    this.writer = new Thread(this::run, "reading-writer");
    writer.setDaemon(true);
    writer.start();
  }

  /** Whether this service itself publishes to the topic. Messages on such topics are ignored. */
  public boolean ignores(String topic) {
    return decoder.ignores(topic);
  }

  /**
   * Decodes a message and queues it in parts; waits while the queue is full. Called by one thread.
   *
   * @param acknowledge called on the writer thread when all readings of the message are stored
   * @throws InterruptedException when the thread is interrupted while waiting; the message is then
   *     not acknowledged
   */
  public void take(Message message, Runnable acknowledge) throws InterruptedException {
    decoder.decode(
        message,
        (part, last) -> {
          if (!part.rejects().isEmpty() && decoder.mayBeMapped(message.topic())) {
            heard.add(message.topic(), message.payload(), message.arrivedAt());
          }
          int permits = permits(part);
          space.acquire(permits);
          Decoded accepted =
              sensorLimit
                  .limited(part, message)
                  .with(r -> arrivals.distinct(r, message.arrivedAt()));
          queue(new Item(accepted, message.arrivedAt(), permits, last ? acknowledge : () -> {}));
        });
  }

  /**
   * Queues the reject of a message that cannot be decoded; waits while the queue is full. Called by
   * one thread.
   *
   * @param acknowledge called on the writer thread when the reject is stored
   * @throws InterruptedException when the thread is interrupted while waiting; the message is then
   *     not acknowledged
   */
  public void takeRefused(Reject reject, Runnable acknowledge) throws InterruptedException {
    space.acquire();
    queue(new Item(new Decoded(List.of(), List.of(reject)), reject.at(), 1, acknowledge));
  }

  /** Queues the reject of a message that was refused earlier; drops it if the queue is full. */
  public void refuse(Reject reject) {
    if (space.tryAcquire()) {
      Decoded decoded = new Decoded(List.of(), List.of(reject));
      queue(new Item(decoded, reject.at(), 1, () -> {}));
    }
  }

  /** The share of the queue that a part of a message needs, in KiB. */
  static int permits(Decoded part) {
    int values = part.readings().size() + part.faults().size();
    return 1 + values / READINGS_PER_KIB + part.rejects().size();
  }

  private void queue(Item item) {
    counters.received(item.entries());
    queue.add(item);
  }

  public IntakeCounts counts() {
    return counters.counts();
  }

  /** Why readings cannot be stored now; null if they can. */
  public @Nullable String trouble() {
    return trouble;
  }

  /** Whether the thread that writes readings has failed. Only a new start of the service helps. */
  public boolean hasEnded() {
    return ended;
  }

  private void run() {
    try {
      writeBatches();
    } catch (RuntimeException | Error e) {
      LOG.error("the writer thread has ended", e);
      trouble = "readings are no longer stored; restart the service: " + e;
      ended = true;
    }
  }

  private void writeBatches() {
    while (true) {
      List<Item> batch = new ArrayList<>();
      try {
        collect(batch);
        if (batch.isEmpty()) {
          if (stopping) {
            return;
          }
          continue;
        }
        storeOrRefuse(batch);
        finish(batch);
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  private void collect(List<Item> batch) throws InterruptedException {
    Item item = queue.poll(500, TimeUnit.MILLISECONDS);
    long start = System.nanoTime();
    int readings = 0;
    while (item != null) {
      batch.add(item);
      readings += item.entries();
      if (readings >= BATCH_READINGS || System.nanoTime() - start >= BATCH_NANOS) {
        return;
      }
      item = queue.poll();
      if (item == null) {
        TimeUnit.NANOSECONDS.sleep(QUIET_NANOS);
        item = queue.poll();
      }
    }
  }

  /**
   * Stores a batch. An unexpected exception is a bug and would recur at each retry. The messages
   * are then stored one by one, and the failing one is refused.
   */
  private void storeOrRefuse(List<Item> batch) throws InterruptedException {
    try {
      store(batch);
    } catch (RuntimeException e) {
      LOG.error("unexpected failure while storing a batch of {} messages", batch.size(), e);
      if (batch.size() > 1) {
        for (Item item : batch) {
          storeOrRefuse(List.of(item));
        }
      } else {
        refuse(batch.get(0), "unexpected failure, please report it: " + e);
      }
    }
  }

  private void refuse(Item item, String reason) throws InterruptedException {
    Decoded decoded = item.decoded();
    List<RefusedReading> refused =
        decoded.readings().stream().map(reading -> new RefusedReading(reading, reason)).toList();
    retry(
        () -> {
          counters.log(decoded.rejects(), refused);
          return WriteResult.NOTHING;
        });
    counters.settled(refused.size(), new WriteResult(0, 0, refused));
    counters.rejected(decoded.refused());
  }

  private void store(List<Item> batch) throws InterruptedException {
    List<Reading> readings = new ArrayList<>();
    List<Reject> rejects = new ArrayList<>();
    List<ArrivalFault> faults = new ArrayList<>();
    int refused = 0;
    for (Item item : batch) {
      faults.addAll(arrivalFaults.of(item.decoded(), item.arrivedAt()));
      readings.addAll(item.decoded().readings());
      rejects.addAll(item.decoded().rejects());
      refused += item.decoded().refused();
    }
    // Presses first: readings in the same batch may fall inside the opening.
    List<Reject> refusedPresses = recordPresses(batch);
    rejects.addAll(refusedPresses);
    WriteResult result = retry(() -> sink.write(readings));
    retry(
        () -> {
          counters.log(rejects, result.refused());
          faultStore.accept(faults);
          return result;
        });
    counters.settled(readings.size(), result);
    counters.received(refusedPresses.size());
    counters.rejected(refused + refusedPresses.size());
  }

  /** Records button presses. Returns a reject for each press that cannot be recorded. */
  private List<Reject> recordPresses(List<Item> batch) throws InterruptedException {
    List<Reject> refused = new ArrayList<>();
    for (Item item : batch) {
      ButtonPress press = item.decoded().press();
      if (press != null) {
        retry(
            () -> {
              String reason = buttons.press(press);
              if (reason != null) {
                refused.add(Reject.of(press.at(), press.topic(), RejectCode.BUTTON, reason, ""));
              }
              return WriteResult.NOTHING;
            });
      }
    }
    return refused;
  }

  /** A write to the store, which may be retried. */
  private interface Write {
    WriteResult run();
  }

  private WriteResult retry(Write write) throws InterruptedException {
    long pauseMs = 100;
    while (true) {
      try {
        WriteResult result = write.run();
        if (trouble != null) {
          LOG.info("the store is available again");
          trouble = null;
        }
        return result;
      } catch (StoreException | Error e) {
        // An Error, such as OutOfMemoryError, does not mean that the readings are invalid.
        String reason = e.getMessage() == null ? e.toString() : e.getMessage();
        if (trouble == null) {
          LOG.warn("{}; readings wait, retrying", reason);
        }
        trouble = reason;
        if (stopping) {
          throw new InterruptedException("stopped while the store was unavailable");
        }
        TimeUnit.MILLISECONDS.sleep(pauseMs);
        pauseMs = Math.min(pauseMs * 2, MAX_RETRY_PAUSE.toMillis());
      }
    }
  }

  private void finish(List<Item> batch) {
    for (Item item : batch) {
      acknowledge(item);
    }
    release(batch);
    publishAll(batch);
  }

  private void acknowledge(Item item) {
    try {
      item.acknowledge().run();
    } catch (RuntimeException e) {
      // The readings are stored. The broker delivers them again, and the store ignores duplicates.
      LOG.error("unexpected failure while acknowledging a message", e);
    }
  }

  /**
   * Passes stored readings to the listener, grouped by arrival in the same millisecond. Leaves out
   * readings of uncertain time, and redelivered readings without a time of their own, because they
   * may be old.
   */
  private void publishAll(List<Item> batch) {
    List<Reading> group = new ArrayList<>();
    List<DeviceStatus> statuses = new ArrayList<>();
    for (int i = 0; i < batch.size(); i++) {
      Instant arrivedAt = batch.get(i).arrivedAt();
      Decoded decoded = batch.get(i).decoded();
      decoded.readings().stream().filter(Intake::isCurrent).forEach(group::add);
      if (decoded.status() != null) {
        statuses.add(decoded.status());
      }
      boolean last = i == batch.size() - 1 || !batch.get(i + 1).arrivedAt().equals(arrivedAt);
      if (last && !(group.isEmpty() && statuses.isEmpty())) {
        publish(new Stored(List.copyOf(group), List.copyOf(statuses), arrivedAt));
        group.clear();
        statuses.clear();
      }
    }
  }

  private static boolean isCurrent(Reading reading) {
    Arrival arrival = reading.arrival();
    return arrival == null || !(arrival.uncertain() || arrival.again());
  }

  private void publish(Stored readings) {
    try {
      listener.accept(readings);
    } catch (RuntimeException | Error e) {
      // The readings are stored; only live values and alerts may be delayed.
      LOG.error("unexpected failure in the listener of stored readings", e);
    }
  }

  private void release(List<Item> batch) {
    for (Item item : batch) {
      space.release(item.permits());
    }
  }

  /**
   * Stores the queued messages if the store is available, and stops the writer thread; waits up to
   * 10 s.
   */
  @Override
  public void close() {
    stopping = true;
    try {
      writer.join(STOP_WAIT.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    writer.interrupt();
  }
}
