package tepidarium.ingest;

import java.time.Instant;

/**
 * One MQTT message as it arrived. A class and not a record, because a record would compare and
 * print the payload by identity. The payload is not copied: whoever makes a message gives it up.
 */
public final class Message {
  private final String topic;
  private final byte[] payload;
  private final Delivery delivery;
  private final Instant arrivedAt;

  /**
   * A message with what the decoder needs to know of its way here.
   *
   * @param arrivedAt this service's own clock
   */
  public Message(String topic, byte[] payload, Delivery delivery, Instant arrivedAt) {
    this.topic = topic;
    this.payload = payload;
    this.delivery = delivery;
    this.arrivedAt = arrivedAt;
  }

  public String topic() {
    return topic;
  }

  public Delivery delivery() {
    return delivery;
  }

  public Instant arrivedAt() {
    return arrivedAt;
  }

  /** The payload itself, not a copy; nobody in this package writes to it. */
  byte[] payload() {
    return payload;
  }
}
