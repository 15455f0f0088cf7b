package tepidarium.web.sensors;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.live.LatestValues;
import tepidarium.reading.SensorId;
import tepidarium.series.ReadingSource;
import tepidarium.web.NotFound;

/** Creates the JSON of sensors. Thread-safe. */
public final class SensorViews {
  private final Register register;
  private final LatestValues latestValues;
  private final ReadingSource readings;

  public SensorViews(Register register, LatestValues latestValues, ReadingSource readings) {
    this.register = register;
    this.latestValues = latestValues;
    this.readings = readings;
  }

  public SensorJson sensor(SensorId sensor) {
    return SensorJson.of(
        sensor, latestValues.of(sensor), readings.uncertain().get(sensor), register);
  }

  /**
   * Returns a sensor that has sent a reading, was placed or was calibrated.
   *
   * @throws NotFound if it is none of these
   */
  SensorJson existing(SensorId sensor) {
    boolean known =
        latestValues.of(sensor).isPresent()
            || readings.uncertain().containsKey(sensor)
            || !register.placementsOf(sensor).isEmpty()
            || !register.calibration(sensor).equals(Calibration.NONE);
    if (!known) {
      throw new NotFound("there is no sensor \"" + sensor + '"');
    }
    return sensor(sensor);
  }

  /** Every sensor that has sent a reading or was placed, by name. */
  List<SensorJson> sensors() {
    Set<SensorId> all = new TreeSet<>(latestValues.sensors());
    all.addAll(readings.uncertain().keySet());
    register.placementsIn(ContainerId.ROOM).stream().map(Placement::sensor).forEach(all::add);
    for (Container container : register.containers()) {
      register.placementsIn(container.id()).stream().map(Placement::sensor).forEach(all::add);
    }
    return all.stream().map(this::sensor).toList();
  }
}
