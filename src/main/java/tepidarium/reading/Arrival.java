package tepidarium.reading;

/**
 * The delivery of a reading without a timestamp of its own; its instant is the arrival time.
 *
 * @param delivery the packet identifier under which the broker delivered it, 1 to 65,535 (MQTT 5.0,
 *     section 2.2.1); 0 where it has none, as with quality of service 0
 * @param again whether the broker marked the delivery as a repeated one (DUP flag, section 3.3.1.1)
 * @param uncertain whether the message waited in the broker for an unknown time; the time of
 *     measurement is then unknown
 */
public record Arrival(int delivery, boolean again, boolean uncertain) {
  /** The same, of uncertain time. */
  public Arrival asUncertain() {
    return new Arrival(delivery, again, true);
  }
}
