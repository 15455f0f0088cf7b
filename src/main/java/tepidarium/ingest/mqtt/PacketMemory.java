package tepidarium.ingest.mqtt;

import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

/**
 * Limits the memory of packets that have not yet arrived completely at the embedded broker, for one
 * packet and for all connections together. Used by the broker's network threads.
 */
final class PacketMemory {
  /**
   * A connection with at most 16 KiB of an unfinished packet is never closed for lack of memory.
   * Packets of sensors are usually smaller.
   */
  static final int SMALL_BYTES = 16 << 10;

  /**
   * The budget is a sixth of the heap, because buffering and passing on a packet briefly takes
   * several times its size.
   */
  private static final int HEAP_DIVISOR = 6;

  private final long largest;
  private final long budget;
  private final AtomicLong held = new AtomicLong();
  private final Consumer<String> closed;

  /**
   * Creates the limits of one broker.
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

  /**
   * Creates limits with a budget of two largest packets or a sixth of the heap, if that is more.
   */
  static PacketMemory of(int largest, Consumer<String> closed) {
    long part = Runtime.getRuntime().maxMemory() / HEAP_DIVISOR;
    return new PacketMemory(largest, Math.max(2L * largest, part), closed);
  }

  boolean accepts(long packetBytes) {
    return packetBytes <= largest;
  }

  /**
   * Counts the bytes of a connection's unfinished packet.
   *
   * @param change change since the last call, in bytes; negative when bytes are released
   * @param unfinished bytes of the unfinished packet so far
   * @return false if the connection must be closed, because the budget is used up
   */
  boolean reserve(long change, long unfinished) {
    return held.addAndGet(change) <= budget || unfinished <= SMALL_BYTES;
  }

  long held() {
    return held.get();
  }

  void reportClosed(String reason) {
    closed.accept(reason);
  }
}
