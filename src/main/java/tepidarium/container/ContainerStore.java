package tepidarium.container;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.SensorId;

/**
 * Stores containers, placements, calibrations, openings and decisions about faults. Each write is
 * one transaction and is durable when the method returns. A broken store throws an unchecked
 * exception with its cause.
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

  /** Replaces all placements of each of the sensors. */
  void replacePlacements(Map<SensorId, List<Placement>> placements);

  Map<SensorId, Calibration> calibrations();

  void putCalibration(SensorId sensor, Calibration calibration);

  /** All calibration points that are not removed, in the order in which they were added. */
  List<CalibrationPoint.Stored> calibrationPoints();

  void addCalibrationPoint(CalibrationPoint point, Instant recordedAt);

  /** Marks a point as removed. It stays in the store, with the instant of its removal. */
  void removeCalibrationPoint(long id, Instant removedAt);

  /** All decisions about faults, oldest first. */
  List<FaultDecision> faultDecisions();

  /** Adds a decision. Decisions are never changed or deleted. */
  void addFaultDecision(FaultDecision decision);

  List<Opening> openings();

  void addOpening(Opening opening);

  /** Suggested openings that the grower declined. */
  List<Opening> declinedOpenings();

  void addDeclinedOpening(Opening declined);
}
