package tepidarium.reading;

/**
 * How a reading came whose instant was taken from its arrival, because its sensor sent no time of
 * its own.
 *
 * @param delivery the packet identifier under which the broker delivered it, 1 to 65,535 (MQTT 5.0,
 *     section 2.2.1); 0 where it has none, as with quality of service 0
 * @param again whether the broker marked the delivery as a repeated one (DUP flag, section 3.3.1.1)
 * @param uncertain whether the message waited in the broker for an unknown time, so that its
 *     arrival does not tell when it was measured
 */
public record Arrival(int delivery, boolean again, boolean uncertain) {
  /** The same, of uncertain time. */
  public Arrival asUncertain() {
    return new Arrival(delivery, again, true);
  }
}
