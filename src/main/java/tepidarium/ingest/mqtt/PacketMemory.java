package tepidarium.ingest.mqtt;

import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

/**
 * Limits the memory that packets take while they arrive at the embedded broker, for one packet and
 * for all connections together. Used by the broker's network threads.
 */
final class PacketMemory {
  /** Connections that hold less are never closed: ordinary packets of sensors are smaller. */
  static final int SMALL_BYTES = 16 << 10;

  /** Buffering a packet and passing it on takes several times its size for a moment. */
  private static final int PART_OF_HEAP = 6;

  private final long largest;
  private final long budget;
  private final AtomicLong held = new AtomicLong();
  private final Consumer<String> closed;

  /**
   * Limits for a broker.
   *
   * @param largest largest accepted packet, in bytes
   * @param budget memory for all unfinished packets together, in bytes
   * @param closed receives the reason when a connection is closed
   */
  PacketMemory(long largest, long budget, Consumer<String> closed) {
    this.largest = largest;
    this.budget = budget;
    this.closed = closed;
  }

  /** Has room for two of the largest packets, or for a sixth of the heap. */
  static PacketMemory of(int largest, Consumer<String> closed) {
    long part = Runtime.getRuntime().maxMemory() / PART_OF_HEAP;
    return new PacketMemory(largest, Math.max(2L * largest, part), closed);
  }

  boolean takes(long packetBytes) {
    return packetBytes <= largest;
  }

  /**
   * Counts the bytes of a connection's unfinished packet.
   *
   * @param more change since the last call, in bytes; negative when bytes are released
   * @param inAll bytes of the unfinished packet so far
   * @return false if the connection must be closed, because the budget is used up
   */
  boolean hold(long more, long inAll) {
    return held.addAndGet(more) <= budget || inAll <= SMALL_BYTES;
  }

  long held() {
    return held.get();
  }

  void tell(String why) {
    closed.accept(why);
  }
}
