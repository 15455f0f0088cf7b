package tepidarium.container;

import java.util.List;
import java.util.Map;
import tepidarium.reading.SensorId;

/**
 * Keeps the record of containers, placements, calibrations and openings. Each method that writes is
 * one transaction and has reached the disk when it returns. A broken store throws an unchecked
 * exception with its cause.
 */
public interface ContainerStore {
  List<Container> containers();

  /** Adds the container, or replaces the one with its id. */
  void put(Container container);

  /**
   * Forgets the container, its placements and its openings, declined ones too. Readings stay with
   * their sensors.
   */
  void remove(ContainerId id);

  List<Placement> placements();

  /** Replaces all placements of one sensor. */
  void replacePlacements(SensorId sensor, List<Placement> placements);

  Map<SensorId, Calibration> calibrations();

  void putCalibration(SensorId sensor, Calibration calibration);

  List<Opening> openings();

  void addOpening(Opening opening);

  /** Suggested openings that the grower said were none. */
  List<Opening> declinedOpenings();

  void addDeclinedOpening(Opening declined);
}
