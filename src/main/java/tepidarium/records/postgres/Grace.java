package tepidarium.records.postgres;

import java.time.Duration;
import java.util.function.LongSupplier;

/**
 * Counts how long a service that waits leaves a lease alone although it has run out. After the
 * database itself was away, or another server leads, a lease has run out for everybody, and the
 * service that worked has the first claim. The grace is counted by a monotonic clock of this
 * machine, from the first answer of the database. To be used by one thread.
 */
final class Grace {
  private final LongSupplier nanos;
  private final Duration length;
  private boolean away;
  private boolean running;
  private long beganNanos;
  private long begunFor = -1;
  private String server = "";

  Grace(Duration length, LongSupplier nanos) {
    this.length = length;
    this.nanos = nanos;
  }

  /** The database does not answer. */
  void away() {
    away = true;
  }

  /**
   * The database answers. Begins the grace if it was away, or if another server answers.
   *
   * @param answering what tells this run of the server from others
   */
  void answers(String answering) {
    boolean another = !server.isEmpty() && !server.equals(answering);
    server = answering;
    if (away || another) {
      begin();
    }
    away = false;
  }

  /** Begins the grace for the lease of an epoch, once. */
  void beginOnce(long epoch) {
    if (begunFor != epoch) {
      begunFor = epoch;
      begin();
    }
  }

  private void begin() {
    running = true;
    beganNanos = nanos.getAsLong();
  }

  boolean isRunning() {
    running = running && nanos.getAsLong() - beganNanos < length.toNanos();
    return running;
  }
}
