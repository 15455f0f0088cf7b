package tepidarium.faults;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Watches the service during an attack, on a thread of its own: publishes a good reading five times
 * a second, asks for health, and notes each moment at which health says "up" although an
 * acknowledged reading has not been stored for 35 s. The service has 30 s to notice.
 */
final class Witness implements AutoCloseable {
  private static final String NAME = "witness";
  private static final long PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(200);
  private static final long MAX_WAIT_NANOS = TimeUnit.SECONDS.toNanos(35);

  /** Health must answer within this time, also while the pages are attacked. */
  private static final double MAX_ANSWER_SECONDS = Form.of(30, 5);

  private final Target target;
  private final Thread thread = new Thread(this::run, NAME);
  private final long firstMs = System.currentTimeMillis();
  private final List<String> problems = new ArrayList<>();
  private final Deque<Long> acknowledgedAt = new ArrayDeque<>();
  private long lastMs;
  private long acknowledged;
  private volatile boolean stopping;

  private Witness(Target target) {
    this.target = target;
    thread.setDaemon(true);
  }

  static Witness of(Target target) {
    Witness witness = new Witness(target);
    witness.thread.start();
    return witness;
  }

  private void run() {
    while (!stopping) {
      int starts = target.starts();
      try (MqttSocket sensor = new MqttSocket(target.mqttPort(), NAME, 1_024)) {
        sensor.awaitConnected();
        while (!stopping) {
          publish(sensor);
          look();
          LockSupport.parkNanos(PAUSE_NANOS);
        }
      } catch (IOException | RuntimeException | AssertionError e) {
        if (!stopping && starts == target.starts() && target.isSteady()) {
          note("while good readings are sent: " + e);
        }
        LockSupport.parkNanos(PAUSE_NANOS);
      }
    }
  }

  private void publish(MqttSocket sensor) throws IOException {
    lastMs = Math.max(lastMs + 1, System.currentTimeMillis());
    String at = Instant.ofEpochMilli(lastMs).toString();
    String reading = "{\"temperature\":30,\"at\":\"" + at + "\"}";
    sensor.publish(1, "tepidarium/" + NAME, MqttBytes.utf8(reading), false);
    sensor.flush();
    sensor.acknowledged();
    acknowledged++;
    acknowledgedAt.add(System.nanoTime());
  }

  private void look() {
    long stored = target.rowsOf(NAME, firstMs, Long.MAX_VALUE);
    while (acknowledgedAt.size() > acknowledged - stored) {
      acknowledgedAt.remove();
    }
    long from = System.nanoTime();
    JsonNode health = target.health();
    double seconds = (System.nanoTime() - from) / 1e9;
    if (seconds > MAX_ANSWER_SECONDS) {
      note("health took %.1f s to answer".formatted(seconds));
    }
    boolean late = !acknowledgedAt.isEmpty() && from - acknowledgedAt.peek() > MAX_WAIT_NANOS;
    if (late && health.get("status").textValue().equals("up")) {
      note("health says up while " + acknowledgedAt.size() + " readings are not stored");
    }
  }

  private synchronized void note(String problem) {
    if (problems.size() < 3) {
      problems.add(problem);
    }
  }

  /** What was not as it should be, in words. */
  synchronized List<String> problems() {
    return List.copyOf(problems);
  }

  /** How many readings were acknowledged and are not in the store; after {@link #close}. */
  long lost() {
    return Math.max(0, acknowledged - target.rowsOf(NAME, firstMs, Long.MAX_VALUE));
  }

  @Override
  public void close() {
    stopping = true;
    LockSupport.unpark(thread);
    try {
      thread.join(TimeUnit.SECONDS.toMillis(30));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
