package tepidarium.ingest;

import tepidarium.reading.Arrival;

/**
 * How the broker delivered a message.
 *
 * @param id packet identifier, 1 to 65,535; 0 with quality of service 0
 * @param retained whether the broker sent a retained message, whose arrival time is not its time of
 *     measuring. The subscription must not request "retain as published".
 * @param again whether the broker marked it as delivered before (DUP flag)
 * @param waited whether it waited in the broker for an unknown time, because the service was not
 *     connected
 */
public record MessageDelivery(int id, boolean retained, boolean again, boolean waited) {
  /** Delivered at once, without a packet identifier. */
  public static final MessageDelivery LIVE = new MessageDelivery(0, false, false, false);

  /** A retained message. */
  public static final MessageDelivery RETAINED = new MessageDelivery(0, true, false, false);

  Arrival arrival() {
    return new Arrival(id, again, waited);
  }
}
