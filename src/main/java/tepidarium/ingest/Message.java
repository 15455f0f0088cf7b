package tepidarium.ingest;

import java.time.Instant;

/**
 * One MQTT message as it arrived. It is not a record, because a record would compare and print the
 * payload by identity. The payload is not copied, so the caller must not change it afterwards.
 */
public final class Message {
  private final String topic;
  private final byte[] payload;
  private final MessageDelivery delivery;
  private final Instant arrivedAt;

  /**
   * Creates a message.
   *
   * @param arrivedAt time of arrival by the service's own clock
   */
  public Message(String topic, byte[] payload, MessageDelivery delivery, Instant arrivedAt) {
    this.topic = topic;
    this.payload = payload;
    this.delivery = delivery;
    this.arrivedAt = arrivedAt;
  }

  public String topic() {
    return topic;
  }

  public MessageDelivery delivery() {
    return delivery;
  }

  public Instant arrivedAt() {
    return arrivedAt;
  }

  /** The payload itself, not a copy; it must not be changed. */
  byte[] payload() {
    return payload;
  }
}
