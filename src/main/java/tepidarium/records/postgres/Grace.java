package tepidarium.records.postgres;

import java.time.Duration;
import java.util.function.LongSupplier;

/**
 * The grace period in which a waiting service does not take an expired lease. While the database is
 * away, or after a failover to another server, no service can renew its lease. The last owner may
 * then renew it first. The period begins at the first answer of the database, by the monotonic
 * clock of this machine. Used by one thread.
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
