package tepidarium.container;

import java.util.List;
import java.util.Map;
import tepidarium.reading.SensorId;

/**
 * Stores containers, placements, calibrations and openings. Each write is one transaction and is
 * durable when the method returns. A broken store throws an unchecked exception with its cause.
 */
public interface ContainerStore {
  List<Container> containers();

  /** Inserts the container, or replaces the one with the same id. */
  void put(Container container);

  /**
   * Deletes the container, its placements and its openings, including declined ones. Readings are
   * kept, because they belong to their sensors.
   */
  void remove(ContainerId id);

  List<Placement> placements();

  /** Replaces all placements of one sensor. */
  void replacePlacements(SensorId sensor, List<Placement> placements);

  Map<SensorId, Calibration> calibrations();

  void putCalibration(SensorId sensor, Calibration calibration);

  List<Opening> openings();

  void addOpening(Opening opening);

  /** Suggested openings that the grower declined. */
  List<Opening> declinedOpenings();

  void addDeclinedOpening(Opening declined);
}
