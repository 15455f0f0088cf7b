package tepidarium.bench;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

/**
 * Readings of many sensors over a few or many connections, published flat out. Every reading has an
 * instant of its own, each sensor's in order, about as old as now.
 */
final class Load implements AutoCloseable {
  private static final int THREADS = 8;
  private static final long STEP_MS = 20;

  private final List<Sensor> connections = new ArrayList<>();
  private final int sensors;
  private final long firstMs;
  private long rounds;

  /**
   * Connects.
   *
   * @param connections as many as this, dealt out to a few threads
   * @param sensors how many names, dealt out to the connections
   */
  Load(int port, int connections, int sensors) {
    this.sensors = sensors;
    this.firstMs = System.currentTimeMillis() - 600_000;
    for (int i = 0; i < connections; i++) {
      this.connections.add(new Sensor(port, "bench-" + i));
    }
  }

  static SensorId sensor(int number) {
    return new SensorId("sensor-" + number);
  }

  /** A plausible reading; the same number gives the same one. */
  static Reading reading(int sensor, long round, long atMs) {
    double swing = Math.sin(round / 90.0 + sensor);
    return Readings.ofAir(
        sensor(sensor),
        Instant.ofEpochMilli(atMs),
        Math.round((30.5 + swing) * 100) / 100.0,
        Math.round((95 - swing) * 10) / 10.0,
        0.0,
        3.91);
  }

  private static byte[] payload(Reading reading) {
    return ("{\"temperature\":"
            + reading.value(Quantity.TEMPERATURE)
            + ",\"humidity\":"
            + reading.value(Quantity.HUMIDITY)
            + ",\"light\":0,\"battery\":3.91,\"at\":\""
            + reading.at()
            + "\"}")
        .getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Publishes, and returns once the broker has acknowledged everything.
   *
   * @param each how many readings each sensor sends
   * @param burst how many a thread sends before it waits for their acknowledgement
   */
  void send(int each, int burst) {
    List<Thread> threads = new ArrayList<>();
    for (int i = 0; i < Math.min(THREADS, connections.size()); i++) {
      int first = i;
      threads.add(new Thread(() -> send(first, each, burst), "load-" + i));
    }
    threads.forEach(Thread::start);
    for (Thread thread : threads) {
      Wait.toEnd(thread);
    }
    rounds += each;
  }

  /** What one thread sends: its share of the connections, in turns. */
  private void send(int thread, int each, int burst) {
    int waiting = 0;
    for (long round = rounds; round < rounds + each; round++) {
      for (int sensor = 0; sensor < sensors; sensor++) {
        int connection = sensor % connections.size();
        if (connection % THREADS == thread) {
          Reading reading = reading(sensor, round, firstMs + round * STEP_MS);
          connections.get(connection).publish(topic(sensor), payload(reading));
          waiting++;
          if (waiting >= burst) {
            settle(thread);
            waiting = 0;
          }
        }
      }
    }
    settle(thread);
  }

  static String topic(int sensor) {
    return String.format(Locale.ROOT, "tepidarium/%s", sensor(sensor));
  }

  private void settle(int thread) {
    for (int i = thread; i < connections.size(); i += THREADS) {
      connections.get(i).flush();
    }
    for (int i = thread; i < connections.size(); i += THREADS) {
      connections.get(i).settle();
    }
  }

  @Override
  public void close() {
    connections.forEach(Sensor::close);
  }
}
