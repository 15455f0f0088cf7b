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
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/**
 * The way from a message to a durable reading. The receiving thread decodes and hands over; one
 * writer thread collects a batch, commits it, and only then acknowledges each message of it, in the
 * order of arrival. A long message is handed over in parts and acknowledged after its last one. The
 * hand-over is bounded by memory: when it is full the receiving thread waits, and the broker is
 * held back by the messages not yet acknowledged. While the store fails, the writer tries again and
 * acknowledges nothing.
 */
public final class Intake implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Intake.class);

  /** What may wait between the threads, in KiB of memory; each message counts for at least one. */
  private static final int WAITING_KIB = 16 * 1024;

  /** Readings that take one KiB of memory, estimated high. */
  private static final int READINGS_PER_KIB = 4;

  private static final int BATCH_READINGS = 5_000;
  private static final long BATCH_NANOS = Duration.ofMillis(100).toNanos();

  /**
   * When nothing more comes for this long, the batch is committed: a small window goes no slower.
   * Slept through, so that not every message wakes the writer.
   */
  private static final long QUIET_NANOS = Duration.ofMillis(2).toNanos();

  /** Short enough that what waits flows again soon after the store is back. */
  private static final Duration LONGEST_RETRY = Duration.ofSeconds(5);

  private static final Duration STOP_WAIT = Duration.ofSeconds(10);

  private record Item(Decoded decoded, Instant arrivedAt, int permits, Runnable acknowledge) {
    int entries() {
      return decoded.readings().size() + decoded.refused();
    }
  }

  /** What has just become durable, for those who follow. */
  public record Stored(List<Reading> readings, Instant arrivedAt) {}

  private final Decoder decoder;
  private final SensorLimit names;
  private final ReadingSink sink;
  private final Settlement settlement;
  private final ButtonSink buttons;
  private final Consumer<Stored> follower;
  private final LinkedBlockingQueue<Item> queue = new LinkedBlockingQueue<>();
  private final Semaphore space = new Semaphore(WAITING_KIB);
  private final DistinctArrivals arrivals = new DistinctArrivals();
  private final Thread writer;
  private volatile boolean stopping;
  private volatile @Nullable String trouble;

  /**
   * Starts the writer thread.
   *
   * @param names readings of sensors beyond this limit are rejected
   * @param buttons where presses of buttons go, on the writer thread
   * @param follower told of readings after they are durable and acknowledged, on the writer thread
   */
  public Intake(
      Decoder decoder,
      SensorLimit names,
      ReadingSink sink,
      Settlement settlement,
      ButtonSink buttons,
      Consumer<Stored> follower) {
    this.decoder = decoder;
    this.names = names;
    this.sink = sink;
    this.settlement = settlement;
    this.buttons = buttons;
    this.follower = follower;
    this.writer = new Thread(this::run, "reading-writer");
    writer.setDaemon(true);
    writer.start();
  }

  /** Whether this service publishes to the topic itself, so that messages on it are no readings. */
  public boolean ignores(String topic) {
    return decoder.ignores(topic);
  }

  /**
   * Decodes a message and hands it over in parts; waits while there is no space. Called by one
   * thread.
   *
   * @param acknowledge run on the writer thread once everything in the message is durable
   * @throws InterruptedException when the waiting is given up; the message is not acknowledged
   */
  public void take(Message message, Runnable acknowledge) throws InterruptedException {
    decoder.decode(
        message,
        (part, last) -> {
          int permits = 1 + part.readings().size() / READINGS_PER_KIB + part.rejects().size();
          space.acquire(permits);
          Decoded apart =
              names.limited(part, message).with(r -> arrivals.apart(r, message.arrivedAt()));
          queue(new Item(apart, message.arrivedAt(), permits, last ? acknowledge : () -> {}));
        });
  }

  /**
   * Logs a message that cannot be decoded; waits while there is no space. Called by one thread.
   *
   * @param acknowledge run on the writer thread once the line is durable
   * @throws InterruptedException when the waiting is given up; the message is not acknowledged
   */
  public void takeRefused(Reject reject, Runnable acknowledge) throws InterruptedException {
    space.acquire();
    queue(new Item(new Decoded(List.of(), List.of(reject)), reject.at(), 1, acknowledge));
  }

  /** Notes a message that was refused before it came here; when there is no space, it is let go. */
  public void refuse(Reject reject) {
    if (space.tryAcquire()) {
      Decoded decoded = new Decoded(List.of(), List.of(reject));
      queue(new Item(decoded, reject.at(), 1, () -> {}));
    }
  }

  private void queue(Item item) {
    settlement.received(item.entries());
    queue.add(item);
  }

  public IntakeCounts counts() {
    return settlement.counts();
  }

  /** Why nothing becomes durable at the moment; null when all is well. */
  public @Nullable String trouble() {
    return trouble;
  }

  private void run() {
    try {
      writeOn();
    } catch (RuntimeException | Error e) {
      LOG.error("the writer ended", e);
      trouble = "nothing is written any more, start the service again: " + e;
    }
  }

  private void writeOn() {
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
        keepOrRefuse(batch);
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
   * A failure that is no broken store is a bug, and would come again with every try: the message
   * that brings it about is found and refused, and the others go on.
   */
  private void keepOrRefuse(List<Item> batch) throws InterruptedException {
    try {
      keepUntilDurable(batch);
    } catch (RuntimeException e) {
      LOG.error("the writer met an unexpected failure with {} messages", batch.size(), e);
      if (batch.size() > 1) {
        for (Item item : batch) {
          keepOrRefuse(List.of(item));
        }
      } else {
        refuse(batch.get(0), "an unexpected failure, please report it: " + e);
      }
    }
  }

  private void refuse(Item item, String reason) throws InterruptedException {
    Decoded decoded = item.decoded();
    List<RefusedReading> refused =
        decoded.readings().stream().map(reading -> new RefusedReading(reading, reason)).toList();
    retry(
        () -> {
          settlement.log(decoded.rejects(), refused);
          return WriteResult.NOTHING;
        });
    settlement.settled(refused.size(), new WriteResult(0, 0, refused));
    settlement.rejected(decoded.refused());
  }

  private void keepUntilDurable(List<Item> batch) throws InterruptedException {
    List<Reading> readings = new ArrayList<>();
    List<Reject> rejects = new ArrayList<>();
    int refused = 0;
    for (Item item : batch) {
      readings.addAll(item.decoded().readings());
      rejects.addAll(item.decoded().rejects());
      refused += item.decoded().refused();
    }
    // First: a reading of the same batch may already show what the press announces.
    List<Reject> refusedPresses = press(batch);
    rejects.addAll(refusedPresses);
    WriteResult result = retry(() -> sink.write(readings));
    retry(
        () -> {
          settlement.log(rejects, result.refused());
          return result;
        });
    settlement.settled(readings.size(), result);
    settlement.received(refusedPresses.size());
    settlement.rejected(refused + refusedPresses.size());
  }

  /** Records the presses of buttons; what cannot be recorded counts as a line that came in. */
  private List<Reject> press(List<Item> batch) throws InterruptedException {
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

  private interface Write {
    WriteResult run();
  }

  private WriteResult retry(Write write) throws InterruptedException {
    long pauseMs = 100;
    while (true) {
      try {
        WriteResult result = write.run();
        if (trouble != null) {
          LOG.info("the store takes readings again");
          trouble = null;
        }
        return result;
      } catch (StoreException | Error e) {
        // An error, such as no memory left, says nothing against the readings.
        String words = e.getMessage() == null ? e.toString() : e.getMessage();
        if (trouble == null) {
          LOG.warn("{}; nothing is lost, trying again", words);
        }
        trouble = words;
        if (stopping) {
          throw new InterruptedException("stopped while the store was away");
        }
        TimeUnit.MILLISECONDS.sleep(pauseMs);
        pauseMs = Math.min(pauseMs * 2, LONGEST_RETRY.toMillis());
      }
    }
  }

  private void finish(List<Item> batch) {
    for (Item item : batch) {
      acknowledge(item);
    }
    release(batch);
    tellAll(batch);
  }

  private void acknowledge(Item item) {
    try {
      item.acknowledge().run();
    } catch (RuntimeException e) {
      // The readings are durable: whoever sent them sends them again, and the store knows them.
      LOG.error("an acknowledgement met an unexpected failure", e);
    }
  }

  /**
   * In one go what arrived in the same millisecond, as many messages do when they come fast.
   * Readings of uncertain time say nothing about now, nor do those delivered before without a time
   * of their own.
   */
  private void tellAll(List<Item> batch) {
    List<Reading> together = new ArrayList<>();
    for (int i = 0; i < batch.size(); i++) {
      Instant arrivedAt = batch.get(i).arrivedAt();
      batch.get(i).decoded().readings().stream().filter(Intake::isNews).forEach(together::add);
      boolean last = i == batch.size() - 1 || !batch.get(i + 1).arrivedAt().equals(arrivedAt);
      if (last && !together.isEmpty()) {
        tell(new Stored(List.copyOf(together), arrivedAt));
        together.clear();
      }
    }
  }

  private static boolean isNews(Reading reading) {
    Arrival arrival = reading.arrival();
    return arrival == null || !(arrival.uncertain() || arrival.again());
  }

  private void tell(Stored readings) {
    try {
      follower.accept(readings);
    } catch (RuntimeException | Error e) {
      // The readings are durable; only what is shown live may lag.
      LOG.error("who follows the readings met an unexpected failure", e);
    }
  }

  private void release(List<Item> batch) {
    for (Item item : batch) {
      space.release(item.permits());
    }
  }

  /** Makes durable what was handed over, as far as the store lets it, and stops. */
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
