package tepidarium.container;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.calibration.QuantityCorrection;
import tepidarium.fault.Exclusions;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * What the {@link Register} knows at one moment. Immutable by convention: nobody changes its
 * collections after loading.
 *
 * @param containers oldest first
 * @param byContainer placements of each container, earliest first
 * @param bySensor placements of each sensor, earliest first
 * @param points calibration points, in the order in which they were added
 */
record RegisterSnapshot(
    Map<ContainerId, Container> containers,
    Map<ContainerId, List<Placement>> byContainer,
    Map<SensorId, List<Placement>> bySensor,
    Map<SensorId, SensorCorrection> corrections,
    List<CalibrationPoint.Stored> points,
    Map<SensorId, Exclusions> exclusions,
    List<Opening> openings,
    List<Opening> declined) {

  /** Reads everything from the store. */
  static RegisterSnapshot load(ContainerStore store) {
    Map<ContainerId, Container> containers = new LinkedHashMap<>();
    store.containers().stream()
        .sorted(Comparator.comparing(Container::createdAt).thenComparing(c -> c.id().value()))
        .forEach(container -> containers.put(container.id(), container));
    List<Placement> placements = new ArrayList<>(store.placements());
    placements.sort(Comparator.comparing(Placement::from).thenComparing(Placement::sensor));
    Map<SensorId, List<Placement>> bySensor = new HashMap<>();
    Map<ContainerId, List<Placement>> byContainer = new HashMap<>();
    for (Placement placement : placements) {
      bySensor.computeIfAbsent(placement.sensor(), key -> new ArrayList<>()).add(placement);
      byContainer.computeIfAbsent(placement.container(), key -> new ArrayList<>()).add(placement);
    }
    byContainer.replaceAll((container, list) -> List.copyOf(list));
    List<CalibrationPoint.Stored> points = List.copyOf(store.calibrationPoints());
    return new RegisterSnapshot(
        containers,
        byContainer,
        bySensor,
        corrections(store.calibrations(), points),
        points,
        exclusions(store.faultDecisions()),
        store.openings(),
        store.declinedOpenings());
  }

  private static Map<SensorId, SensorCorrection> corrections(
      Map<SensorId, Calibration> constants, List<CalibrationPoint.Stored> points) {
    Map<SensorId, Map<Quantity, List<CalibrationPoint>>> grouped = new HashMap<>();
    constants.keySet().forEach(sensor -> grouped.put(sensor, new EnumMap<>(Quantity.class)));
    for (CalibrationPoint.Stored stored : points) {
      grouped
          .computeIfAbsent(stored.point().sensor(), key -> new EnumMap<>(Quantity.class))
          .computeIfAbsent(stored.point().quantity(), key -> new ArrayList<>())
          .add(stored.point());
    }
    Map<SensorId, SensorCorrection> corrections = new HashMap<>();
    grouped.forEach(
        (sensor, byQuantity) -> {
          Map<Quantity, QuantityCorrection> dated = new EnumMap<>(Quantity.class);
          byQuantity.forEach((quantity, own) -> dated.put(quantity, new QuantityCorrection(own)));
          Calibration constant = constants.getOrDefault(sensor, Calibration.NONE);
          corrections.put(sensor, new SensorCorrection(constant, dated));
        });
    return corrections;
  }

  private static Map<SensorId, Exclusions> exclusions(List<FaultDecision> decisions) {
    Map<SensorId, List<FaultDecision>> bySensor =
        decisions.stream().collect(Collectors.groupingBy(FaultDecision::sensor));
    Map<SensorId, Exclusions> exclusions = new HashMap<>();
    bySensor.forEach((sensor, own) -> exclusions.put(sensor, new Exclusions(own)));
    return exclusions;
  }
}
