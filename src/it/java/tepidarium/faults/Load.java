package tepidarium.faults;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;

/**
 * Sensors that publish one reading after the other, each known by its second, and send again over a
 * new connection what the broker has not acknowledged. So in the end everything was acknowledged.
 */
final class Load implements AutoCloseable {
  /** The event time of each sensor's first reading, epoch seconds. */
  static final long FIRST_SECOND = 1_772_344_800;

  /** Readings that each sensor has under way at once. */
  private static final int WINDOW = 50;

  private static final long PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(5);
  private static final long RECONNECT_NANOS = TimeUnit.MILLISECONDS.toNanos(200);

  /** Readings before a number, the first of which was acknowledged at the time. */
  private record Window(long until, long atNanos) {}

  private final String host;
  private final int port;
  private final List<Sensor> sensors;
  private volatile boolean finishing;
  private volatile boolean stopping;

  private Load(String host, int port, int sensors) {
    this.host = host;
    this.port = port;
    this.sensors = IntStream.range(0, sensors).mapToObj(Sensor::new).toList();
  }

  /** Sensors that have begun to publish to the port. */
  static Load on(int port, int sensors) {
    return on("127.0.0.1", port, sensors);
  }

  /** The same on another address than the loopback one. */
  static Load on(String host, int port, int sensors) {
    Load load = new Load(host, port, sensors);
    load.sensors.forEach(sensor -> sensor.thread.start());
    return load;
  }

  /** How many readings were acknowledged so far. */
  long acknowledged() {
    return sensors.stream().mapToLong(sensor -> sensor.acknowledged).sum();
  }

  /** Waits until so many more have been acknowledged. */
  void awaitMore(int readings) {
    long enough = acknowledged() + readings;
    await().atMost(Form.SOON).until(() -> acknowledged() >= enough);
  }

  /** Sends nothing new and waits until everything that was sent is acknowledged. */
  void finish() {
    finishing = true;
    await()
        .atMost(Form.SOON)
        .until(() -> sensors.stream().noneMatch(sensor -> sensor.thread.isAlive()));
  }

  /** How many acknowledged readings are not among those stored, by sensor and second. */
  long lost(Map<String, BitSet> stored) {
    return sensors.stream().mapToLong(sensor -> sensor.missing(stored).cardinality()).sum();
  }

  /** How many are stored that nobody sent. */
  long madeUp(Map<String, BitSet> stored) {
    long sent = 0;
    for (Sensor sensor : sensors) {
      BitSet known = (BitSet) stored.getOrDefault(sensor.name, new BitSet()).clone();
      known.clear(0, (int) sensor.acknowledged);
      sent += known.cardinality();
    }
    return sent;
  }

  /** For each one that is lost, how long before the end of the broker it was acknowledged. */
  List<Double> secondsBefore(List<Long> endsNanos, Map<String, BitSet> stored) {
    List<Double> seconds = new ArrayList<>();
    for (Sensor sensor : sensors) {
      sensor.missing(stored).stream()
          .mapToLong(sensor::acknowledgedAtNanos)
          .mapToDouble(
              at ->
                  endsNanos.stream()
                      .mapToLong(end -> end - at)
                      .filter(nanos -> nanos >= 0)
                      .min()
                      .orElse(Long.MAX_VALUE))
          .forEach(nanos -> seconds.add(nanos / 1e9));
    }
    return seconds;
  }

  @Override
  public void close() {
    stopping = true;
    sensors.forEach(sensor -> LockSupport.unpark(sensor.thread));
  }

  private final class Sensor {
    private final String name;
    private final Thread thread;
    private final List<Window> windows = new ArrayList<>();
    private volatile long acknowledged;

    Sensor(int number) {
      name = "load-" + number;
      thread = new Thread(this::run, name);
      thread.setDaemon(true);
    }

    BitSet missing(Map<String, BitSet> stored) {
      BitSet missing = new BitSet();
      missing.set(0, (int) acknowledged);
      missing.andNot(stored.getOrDefault(name, new BitSet()));
      return missing;
    }

    long acknowledgedAtNanos(int index) {
      return windows.stream()
          .filter(window -> index < window.until())
          .findFirst()
          .orElseThrow()
          .atNanos();
    }

    private void run() {
      BitSet open = new BitSet();
      long done = 0;
      long firstNanos = 0;
      boolean again = false;
      while (!stopping && !(finishing && open.isEmpty())) {
        try (MqttSocket socket = new MqttSocket(host, port, name, 8_192)) {
          socket.awaitConnected();
          while (!stopping && !(finishing && open.isEmpty())) {
            if (open.isEmpty()) {
              open.set(0, WINDOW);
              firstNanos = 0;
              again = false;
            }
            send(socket, open, again);
            again = true;
            while (!open.isEmpty()) {
              open.clear(socket.acknowledged() - 1);
              firstNanos = firstNanos == 0 ? System.nanoTime() : firstNanos;
            }
            done += WINDOW;
            windows.add(new Window(done, firstNanos));
            acknowledged = done;
            LockSupport.parkNanos(PAUSE_NANOS);
          }
        } catch (IOException e) {
          // The broker is away or takes nothing: what is open is sent again.
          LockSupport.parkNanos(RECONNECT_NANOS);
        }
      }
    }

    private void send(MqttSocket socket, BitSet open, boolean again) throws IOException {
      for (int i = open.nextSetBit(0); i >= 0; i = open.nextSetBit(i + 1)) {
        long second = FIRST_SECOND + acknowledged + i;
        String payload = "{\"temperature\":30,\"at\":" + second + "}";
        socket.publish(
            i + 1, "tepidarium/" + name, payload.getBytes(StandardCharsets.UTF_8), again);
      }
      socket.flush();
    }
  }
}
