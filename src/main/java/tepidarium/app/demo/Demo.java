package tepidarium.app.demo;

import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Brings a running service to life with an invented garden: containers and checks over HTTP, four
 * weeks of readings over MQTT, then a reading of each sensor every few seconds on a thread of its
 * own. Knows the service only by its addresses.
 */
public final class Demo implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Demo.class);

  /** How often each sensor reports once the history is in. */
  public static final Duration LIVE_PERIOD = Duration.ofSeconds(5);

  private static final Duration LOOK_PERIOD = Duration.ofMillis(100);
  private static final Duration PATIENCE = Duration.ofMinutes(3);

  /**
   * Where the service is.
   *
   * @param api the address of the pages and the API
   * @param broker the address of the broker, such as tcp://127.0.0.1:1883
   * @param rootTopic the topic below which sensors publish
   * @param zone where a day begins
   */
  public record Access(URI api, URI broker, String rootTopic, ZoneId zone) {}

  /**
   * What the history came to.
   *
   * @param readings how many different readings are in
   * @param sent how many were sent, repeated ones included
   */
  public record Filled(long readings, long sent, Duration took) {}

  private final Access access;
  private final Clock clock;
  private final Garden garden;
  private final ScheduledExecutorService live =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "demo-sensors");
            thread.setDaemon(true);
            return thread;
          });
  private final SensorPublisher publisher;
  private volatile @Nullable Future<?> reports;

  /**
   * Connects the invented sensors; they say nothing yet.
   *
   * @throws IllegalStateException when the broker cannot be reached
   */
  public Demo(Access access, Clock clock) {
    this.access = access;
    this.clock = clock;
    this.garden = Garden.of(new DemoCalendar(clock.instant(), access.zone()));
    this.publisher = SensorPublisher.connect(access.broker(), access.rootTopic());
  }

  /**
   * Lays out the garden, publishes its history, waits until all of it is durable, and starts the
   * live readings.
   *
   * @throws InterruptedException when the waiting is given up
   * @throws TimeoutException when the history is not in after three minutes
   */
  public Filled fillIn() throws InterruptedException, TimeoutException {
    long start = System.nanoTime();
    DemoClient client = new DemoClient(access.api());
    client.layOut(garden);
    long different = 0;
    long sent = 0;
    for (List<SensorMessage> day : (Iterable<List<SensorMessage>>) Backlog.of(garden)::iterator) {
      publisher.send(day);
      sent += readings(day, message -> true);
      different += readings(day, message -> !message.repeated());
    }
    awaitDurable(client, different);
    Duration took = Duration.ofNanos(System.nanoTime() - start);
    reports =
        live.scheduleAtFixedRate(this::report, 0, LIVE_PERIOD.toMillis(), TimeUnit.MILLISECONDS);
    return new Filled(different, sent, took);
  }

  private static long readings(List<SensorMessage> messages, Predicate<SensorMessage> which) {
    return messages.stream().filter(which).mapToLong(message -> message.readings().size()).sum();
  }

  private static void awaitDurable(DemoClient client, long readings)
      throws InterruptedException, TimeoutException {
    long deadline = System.nanoTime() + PATIENCE.toNanos();
    DemoClient.Counts counts = client.counts();
    while (counts.waiting() > 0 || counts.stored() < readings) {
      if (System.nanoTime() - deadline > 0) {
        throw new TimeoutException("of " + readings + " readings only these are in: " + counts);
      }
      TimeUnit.NANOSECONDS.sleep(LOOK_PERIOD.toNanos());
      counts = client.counts();
    }
  }

  private void report() {
    try {
      Instant now = clock.instant();
      publisher.send(
          garden.nodes().stream()
              .filter(node -> node.faults().speaksAt(now))
              .map(node -> new SensorMessage(node.sensor(), List.of(node.reading(now)), false))
              .toList());
    } catch (RuntimeException e) {
      // The next readings come soon; an exception would end them all.
      if (!live.isShutdown()) {
        LOG.warn("{}", e.getMessage());
      }
    }
  }

  @Override
  public void close() {
    Future<?> current = reports;
    if (current != null) {
      current.cancel(true);
    }
    live.shutdownNow();
    publisher.close();
  }
}
