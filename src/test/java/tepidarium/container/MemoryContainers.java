package tepidarium.container;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.SensorId;

/** Keeps containers in memory, for tests of the register alone. One thread only. */
public final class MemoryContainers implements ContainerStore {
  private final Map<ContainerId, Container> containers = new HashMap<>();
  private final List<Placement> placements = new ArrayList<>();
  private final Map<SensorId, Calibration> calibrations = new HashMap<>();
  private final List<Opening> openings = new ArrayList<>();
  private final List<Opening> declined = new ArrayList<>();
  private final List<CalibrationPoint.Stored> points = new ArrayList<>();
  private final List<FaultDecision> decisions = new ArrayList<>();
  private long pointsEver;
  private boolean broken;

  /** From now on every change throws. */
  void breakDown() {
    broken = true;
  }

  private void write() {
    if (broken) {
      throw new IllegalStateException("the disk is full");
    }
  }

  @Override
  public List<Container> containers() {
    return List.copyOf(containers.values());
  }

  @Override
  public void put(Container container) {
    write();
    containers.put(container.id(), container);
  }

  @Override
  public List<FaultDecision> faultDecisions() {
    return List.copyOf(decisions);
  }

  @Override
  public void addFaultDecision(FaultDecision decision) {
    write();
    decisions.add(decision);
  }

  @Override
  public void remove(ContainerId id) {
    write();
    containers.remove(id);
    placements.removeIf(placement -> placement.container().equals(id));
    openings.removeIf(opening -> opening.container().equals(id));
    declined.removeIf(opening -> opening.container().equals(id));
  }

  @Override
  public List<Placement> placements() {
    return List.copyOf(placements);
  }

  @Override
  public void replacePlacements(Map<SensorId, List<Placement>> replaced) {
    write();
    placements.removeIf(placement -> replaced.containsKey(placement.sensor()));
    replaced.values().forEach(placements::addAll);
  }

  @Override
  public Map<SensorId, Calibration> calibrations() {
    return Map.copyOf(calibrations);
  }

  @Override
  public void putCalibration(SensorId sensor, Calibration calibration) {
    write();
    calibrations.put(sensor, calibration);
  }

  @Override
  public List<CalibrationPoint.Stored> calibrationPoints() {
    return List.copyOf(points);
  }

  @Override
  public void addCalibrationPoint(CalibrationPoint point, Instant recordedAt) {
    write();
    points.add(new CalibrationPoint.Stored(++pointsEver, point));
  }

  @Override
  public void removeCalibrationPoint(long id, Instant removedAt) {
    write();
    points.removeIf(stored -> stored.id() == id);
  }

  @Override
  public List<Opening> openings() {
    return List.copyOf(openings);
  }

  @Override
  public void addOpening(Opening opening) {
    write();
    openings.removeIf(
        old ->
            old.container().equals(opening.container())
                && old.span().from().equals(opening.span().from()));
    openings.add(opening);
  }

  @Override
  public List<Opening> declinedOpenings() {
    return List.copyOf(declined);
  }

  @Override
  public void addDeclinedOpening(Opening suggested) {
    write();
    declined.add(suggested);
  }
}
