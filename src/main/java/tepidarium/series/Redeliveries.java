package tepidarium.series;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Detects readings that the broker redelivers after a lost connection although they are already
 * stored. It handles readings without a timestamp of their own, because each delivery of those gets
 * a different arrival time. A redelivery carries the packet identifier of the first delivery (MQTT
 * 5.0, section 4.4) and the same values.
 */
public final class Redeliveries {
  /** Number of a sensor's newest readings in which a store searches for the first delivery. */
  public static final int LOOK_BACK = 5_000;

  private Redeliveries() {}

  /**
   * Returns the batch indexes of redelivered readings that are already stored or occur earlier in
   * the batch.
   *
   * @param stored returns the newest stored readings of a sensor that have a packet identifier
   */
  public static BitSet repeated(List<Reading> batch, Function<SensorId, List<Reading>> stored) {
    BitSet repeated = new BitSet();
    Map<SensorId, List<Integer>> places = places(batch);
    places.forEach(
        (sensor, ofSensor) -> {
          List<Reading> known = new ArrayList<>(stored.apply(sensor));
          for (int place : ofSensor) {
            Reading reading = batch.get(place);
            if (isAgain(reading) && known.stream().anyMatch(one -> isSame(one, reading))) {
              repeated.set(place);
            } else {
              known.add(reading);
            }
          }
        });
    return repeated;
  }

  /** The batch indexes of all readings, by sensor, for sensors with at least one redelivery. */
  private static Map<SensorId, List<Integer>> places(List<Reading> batch) {
    Map<SensorId, List<Integer>> places = new LinkedHashMap<>();
    batch.stream()
        .filter(Redeliveries::isAgain)
        .forEach(reading -> places.put(reading.sensor(), new ArrayList<>()));
    if (!places.isEmpty()) {
      for (int i = 0; i < batch.size(); i++) {
        List<Integer> ofSensor = places.get(batch.get(i).sensor());
        if (ofSensor != null) {
          ofSensor.add(i);
        }
      }
    }
    return places;
  }

  private static boolean isAgain(Reading reading) {
    Arrival arrival = reading.arrival();
    return arrival != null && arrival.again() && arrival.delivery() > 0;
  }

  private static boolean isSame(Reading stored, Reading again) {
    return delivery(stored) == delivery(again) && holds(stored, again);
  }

  private static int delivery(Reading reading) {
    Arrival arrival = reading.arrival();
    return arrival == null ? 0 : arrival.delivery();
  }

  private static boolean holds(Reading stored, Reading again) {
    for (Quantity quantity : Quantity.values()) {
      Double value = again.value(quantity);
      if (value != null && !isSame(stored.value(quantity), value)) {
        return false;
      }
    }
    return true;
  }

  private static boolean isSame(@Nullable Double stored, double again) {
    return stored != null && ScaledValue.steps(stored) == ScaledValue.steps(again);
  }
}
