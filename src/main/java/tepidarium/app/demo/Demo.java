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
import tepidarium.thread.DaemonThreads;

/**
 * Fills a running service with the data of an invented garden: containers and checks over HTTP, and
 * readings of four weeks over MQTT. Then a background thread publishes a reading of each sensor
 * every 5 s. Uses only the HTTP API and the broker of the service.
 */
public final class Demo implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Demo.class);

  /** Interval of the live readings of each sensor. */
  public static final Duration LIVE_PERIOD = Duration.ofSeconds(5);

  private static final Duration POLL_INTERVAL = Duration.ofMillis(100);
  private static final Duration MAX_WAIT = Duration.ofMinutes(3);

  /**
   * The addresses of the service.
   *
   * @param api the address of the pages and the API
   * @param broker the address of the broker, such as tcp://127.0.0.1:1883
   * @param rootTopic the topic below which sensors publish
   * @param zone time zone of the garden
   */
  public record Addresses(URI api, URI broker, String rootTopic, ZoneId zone) {}

  /**
   * The size of the stored history.
   *
   * @param readings number of distinct readings
   * @param sent number of readings sent, including duplicates
   */
  public record LoadedHistory(long readings, long sent, Duration took) {}

  private final Addresses addresses;
  private final Clock clock;
  private final Garden garden;
  private final ScheduledExecutorService live =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("demo-sensors"));
  private final SensorPublisher publisher;
  private volatile @Nullable Future<?> liveReadings;

  /**
   * Connects to the broker; publishes nothing yet.
   *
   * @throws IllegalStateException when the broker cannot be reached
   */
  public Demo(Addresses addresses, Clock clock) {
    this.addresses = addresses;
    this.clock = clock;
    this.garden = Garden.of(new DemoCalendar(clock.instant(), addresses.zone()));
    this.publisher = SensorPublisher.connect(addresses.broker(), addresses.rootTopic());
  }

  /**
   * Creates the containers, publishes the history, waits until it is stored, and starts the live
   * readings.
   *
   * @throws InterruptedException when the thread is interrupted
   * @throws TimeoutException when the history is not stored after 3 min
   */
  public LoadedHistory loadHistory() throws InterruptedException, TimeoutException {
    long start = System.nanoTime();
    DemoClient client = new DemoClient(addresses.api());
    client.create(garden);
    long distinct = 0;
    long sent = 0;
    for (List<SensorMessage> day : (Iterable<List<SensorMessage>>) Backlog.of(garden)::iterator) {
      publisher.send(day);
      sent += countReadings(day, message -> true);
      distinct += countReadings(day, message -> !message.repeated());
    }
    awaitStored(client, distinct);
    Duration took = Duration.ofNanos(System.nanoTime() - start);
    liveReadings =
        live.scheduleAtFixedRate(
            this::publishLiveReadings, 0, LIVE_PERIOD.toMillis(), TimeUnit.MILLISECONDS);
    return new LoadedHistory(distinct, sent, took);
  }

  private static long countReadings(
      List<SensorMessage> messages, Predicate<SensorMessage> condition) {
    return messages.stream()
        .filter(condition)
        .mapToLong(message -> message.readings().size())
        .sum();
  }

  private static void awaitStored(DemoClient client, long readings)
      throws InterruptedException, TimeoutException {
    long deadline = System.nanoTime() + MAX_WAIT.toNanos();
    DemoClient.Counts counts = client.counts();
    while (counts.waiting() > 0 || counts.stored() < readings) {
      if (System.nanoTime() - deadline > 0) {
        throw new TimeoutException("not all " + readings + " demo readings are stored: " + counts);
      }
      TimeUnit.NANOSECONDS.sleep(POLL_INTERVAL.toNanos());
      counts = client.counts();
    }
  }

  private void publishLiveReadings() {
    try {
      Instant now = clock.instant();
      publisher.send(
          garden.sensors().stream()
              .filter(sensor -> sensor.faults().sendsAt(now))
              .map(sensor -> new SensorMessage(sensor.id(), List.of(sensor.reading(now)), false))
              .toList());
    } catch (RuntimeException e) {
      // An exception would end the schedule; the next readings follow in 5 s.
      if (!live.isShutdown()) {
        LOG.warn("no live readings this time: {}", e.getMessage());
      }
    }
  }

  @Override
  public void close() {
    Future<?> current = liveReadings;
    if (current != null) {
      current.cancel(true);
    }
    live.shutdownNow();
    publisher.close();
  }
}
