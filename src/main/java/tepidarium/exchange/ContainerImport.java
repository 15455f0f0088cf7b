package tepidarium.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.calibration.CalibrationRules;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerStore;
import tepidarium.container.Opening;
import tepidarium.container.Placement;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.sensor.SensorDetails;
import tepidarium.sensor.SensorStore;

/**
 * Writes imported containers, and what belongs to them and to sensors, into the stores. What is
 * there already must be identical. Each method returns whether the row is new, and throws {@link
 * InvalidInput} for one that contradicts others. It needs a transaction around it, in which a
 * refusal undoes all writes.
 */
final class ContainerImport {
  private final ContainerStore store;
  private final SensorStore sensorStore;
  private final Map<ContainerId, Container> containers = new HashMap<>();
  private final Map<SensorId, SensorDetails> sensors;
  private final Map<SensorId, List<Placement>> placements = new HashMap<>();
  private final Map<SensorId, Calibration> calibrations;
  private final List<CalibrationPoint> points = new ArrayList<>();
  private final Set<Opening> openings;
  private final Set<Opening> declined;

  private final Instant now;

  ContainerImport(ContainerStore store, SensorStore sensorStore, Instant now) {
    this.now = now;
    this.store = store;
    this.sensorStore = sensorStore;
    store.containers().forEach(container -> containers.put(container.id(), container));
    this.sensors = new HashMap<>(sensorStore.details());
    store.placements().forEach(placement -> placementsOf(placement.sensor()).add(placement));
    this.calibrations = new HashMap<>(store.calibrations());
    store.calibrationPoints().forEach(stored -> points.add(stored.point()));
    this.openings = new HashSet<>(store.openings());
    this.declined = new HashSet<>(store.declinedOpenings());
  }

  private List<Placement> placementsOf(SensorId sensor) {
    return placements.computeIfAbsent(sensor, key -> new ArrayList<>());
  }

  boolean container(Container container) {
    if (!isNew(containers, container.id(), container, "container")) {
      return false;
    }
    store.put(container);
    return true;
  }

  boolean sensor(Map.Entry<SensorId, SensorDetails> sensor) {
    SensorId id = sensor.getKey();
    if (!isNew(sensors, id, sensor.getValue(), "description of sensor")) {
      return false;
    }
    sensorStore.put(id, sensor.getValue());
    return true;
  }

  boolean calibration(Map.Entry<SensorId, Calibration> sensor) {
    SensorId id = sensor.getKey();
    if (!isNew(calibrations, id, sensor.getValue(), "calibration of sensor")) {
      return false;
    }
    store.putCalibration(id, sensor.getValue());
    return true;
  }

  private static <K, V> boolean isNew(Map<K, V> known, K key, V value, String what) {
    V existing = known.putIfAbsent(key, value);
    if (existing != null && !existing.equals(value)) {
      throw new InvalidInput(
          "there is already another " + what + ' ' + key + " here",
          InputRule.DIFFERS.with(key.toString()));
    }
    return existing == null;
  }

  boolean placement(Placement placement) {
    List<Placement> own = placementsOf(placement.sensor());
    if (own.contains(placement)) {
      return false;
    }
    if (!placement.container().equals(ContainerId.ROOM)) {
      requireContainer(placement.container());
    }
    for (Placement other : own) {
      if (overlap(placement, other) || overlap(other, placement)) {
        throw new InvalidInput(
            "sensor %s is already in %s from %s on"
                .formatted(placement.sensor(), other.container(), other.from()),
            InputRule.OVERLAPS.with(
                placement.sensor().name(), place(other), other.from(), other.until()));
      }
    }
    own.add(placement);
    store.replacePlacements(Map.of(placement.sensor(), List.copyOf(own)));
    return true;
  }

  /** The id of its container; null for the room. */
  private static @Nullable String place(Placement placement) {
    ContainerId container = placement.container();
    return container.equals(ContainerId.ROOM) ? null : container.value();
  }

  /** Whether the second placement starts within the first. */
  private static boolean overlap(Placement first, Placement second) {
    return first.holdsAt(second.from());
  }

  /** The points of one session may come in any order, so {@link #checkPoints} checks them last. */
  boolean point(CalibrationPoint point) {
    if (points.contains(point)) {
      return false;
    }
    points.add(point);
    store.addCalibrationPoint(point, now);
    return true;
  }

  /**
   * Checks all points of each sensor and quantity together.
   *
   * @throws InvalidInput if they give no usable correction
   */
  void checkPoints() {
    points.stream()
        .collect(Collectors.groupingBy(point -> Map.entry(point.sensor(), point.quantity())))
        .forEach((key, own) -> check(key.getKey(), own));
  }

  private static void check(SensorId sensor, List<CalibrationPoint> points) {
    try {
      CalibrationRules.checkTogether(points);
    } catch (InvalidInput e) {
      throw new Problems(Table.CALIBRATION_POINTS.key())
          .refusal("sensor " + sensor + ": " + e.getMessage(), e.broken());
    }
  }

  boolean opening(OpeningTable.Line line) {
    Opening opening = line.opening();
    requireContainer(opening.container());
    Set<Opening> known = line.declined() ? declined : openings;
    if (!known.add(opening)) {
      return false;
    }
    boolean taken =
        known.stream()
            .anyMatch(
                other ->
                    !other.equals(opening)
                        && other.container().equals(opening.container())
                        && other.span().from().equals(opening.span().from()));
    if (taken) {
      throw new InvalidInput(
          "there is already another opening of %s from %s on here"
              .formatted(opening.container(), opening.span().from()),
          InputRule.DIFFERS.with(opening.container().value()));
    }
    if (line.declined()) {
      store.addDeclinedOpening(opening);
    } else {
      store.addOpening(opening);
    }
    return true;
  }

  private void requireContainer(ContainerId id) {
    if (!containers.containsKey(id)) {
      throw InvalidInput.notFound("container", id.value());
    }
  }
}
