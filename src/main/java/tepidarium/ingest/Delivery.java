package tepidarium.ingest;

import tepidarium.reading.Arrival;

/**
 * How the broker delivered a message.
 *
 * @param id its packet identifier, 1 to 65,535; 0 with quality of service 0
 * @param retained whether the broker sent it from its memory, so that its arrival does not tell
 *     when it was measured; a subscription must therefore not ask for "retain as published"
 * @param again whether the broker marked it as delivered before (DUP flag)
 * @param waited whether it waited in the broker for an unknown time, because the service was away
 */
public record Delivery(int id, boolean retained, boolean again, boolean waited) {
  /** Without a packet identifier, as it was published. */
  public static final Delivery LIVE = new Delivery(0, false, false, false);

  /** From the broker's memory. */
  public static final Delivery RETAINED = new Delivery(0, true, false, false);

  Arrival arrival() {
    return new Arrival(id, again, waited);
  }
}
