package tepidarium.container;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.calibration.CalibrationRules;
import tepidarium.fault.Exclusions;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * The register of containers, sensor placements, calibrations, openings and excluded readings.
 * Queries use an in-memory snapshot, because every incoming reading needs one. Changes are written
 * to the store first. Thread-safe; changes run one at a time.
 */
public final class Register {
  /**
   * Called after each change, in the order of the changes, one call at a time, without holding a
   * lock of the register. Runs on the thread that made this change or an earlier one.
   */
  public interface Listener {
    void changed(Set<ContainerId> touched);
  }

  private final ContainerStore store;
  private final ChangeNotifier notifier = new ChangeNotifier();

  private volatile RegisterSnapshot snapshot;

  public Register(ContainerStore store) {
    this.store = store;
    this.snapshot = RegisterSnapshot.load(store);
  }

  public void listen(Listener listener) {
    notifier.listen(listener);
  }

  /** Runs a change under the lock, then calls the listeners without it. */
  private <T> T change(Supplier<T> change) {
    T result;
    synchronized (this) {
      result = change.get();
    }
    notifier.callListeners();
    return result;
  }

  /** Reloads the snapshot after a write to the store, and queues the notification. */
  private void reload(Set<ContainerId> touched) {
    snapshot = RegisterSnapshot.load(store);
    notifier.add(touched);
  }

  /** All containers, oldest first. */
  public List<Container> containers() {
    return List.copyOf(snapshot.containers().values());
  }

  public Optional<Container> container(ContainerId id) {
    return Optional.ofNullable(snapshot.containers().get(id));
  }

  /** The container or room in which the sensor was placed at that instant; empty for none. */
  public Optional<ContainerId> placeOf(SensorId sensor, Instant at) {
    return placementsOf(sensor).stream()
        .filter(placement -> placement.holdsAt(at))
        .map(Placement::container)
        .findFirst();
  }

  /** The sensor's placements, earliest first. */
  public List<Placement> placementsOf(SensorId sensor) {
    return snapshot.bySensor().getOrDefault(sensor, List.of());
  }

  /**
   * The container's placements, earliest first. The earliest placed sensor has priority.
   *
   * @param id a container or {@link ContainerId#ROOM}
   */
  public List<Placement> placementsIn(ContainerId id) {
    return snapshot.byContainer().getOrDefault(id, List.of());
  }

  public Calibration calibration(SensorId sensor) {
    return correction(sensor).constant();
  }

  /** The correction of the sensor's raw readings, by its points and its constant offset. */
  public SensorCorrection correction(SensorId sensor) {
    return snapshot.corrections().getOrDefault(sensor, SensorCorrection.NONE);
  }

  /** Which of the sensor's readings figures leave out. */
  public Exclusions exclusions(SensorId sensor) {
    return snapshot.exclusions().getOrDefault(sensor, Exclusions.DEFAULT);
  }

  /** Stores a decision about a fault. Every figure of the sensor's containers follows it. */
  public void decide(FaultDecision decision) {
    change(
        () -> {
          store.addFaultDecision(decision);
          reload(placesOf(decision.sensor()));
          return decision;
        });
  }

  /** All placements, by their start. */
  public List<Placement> placements() {
    return snapshot.bySensor().values().stream()
        .flatMap(List::stream)
        .sorted(Comparator.comparing(Placement::from).thenComparing(Placement::sensor))
        .toList();
  }

  /** The constant offsets of all sensors that have one. */
  public Map<SensorId, Calibration> calibrations() {
    Map<SensorId, Calibration> constants = new HashMap<>();
    snapshot.corrections().forEach((sensor, all) -> constants.put(sensor, all.constant()));
    constants.values().removeIf(Calibration.NONE::equals);
    return constants;
  }

  /** All calibration points, in the order in which they were added. */
  public List<CalibrationPoint> calibrationPoints() {
    return snapshot.points().stream().map(CalibrationPoint.Stored::point).toList();
  }

  /** All openings, in no order. */
  public List<Opening> openings() {
    return List.copyOf(snapshot.openings());
  }

  /** All suggested openings that the grower declined, in no order. */
  public List<Opening> declinedOpenings() {
    return List.copyOf(snapshot.declined());
  }

  /**
   * Runs work that writes to the store directly, then reads the store again. No other change runs
   * meanwhile. If the work throws, nothing is read.
   */
  public void reloadAfter(Runnable work) {
    change(
        () -> {
          work.run();
          Set<ContainerId> touched = new HashSet<>(snapshot.containers().keySet());
          store.containers().forEach(container -> touched.add(container.id()));
          touched.add(ContainerId.ROOM);
          reload(touched);
          return touched;
        });
  }

  /** The sensor's calibration points, in the order in which they were added. */
  public List<CalibrationPoint.Stored> calibrationPoints(SensorId sensor) {
    return snapshot.points().stream()
        .filter(stored -> stored.point().sensor().equals(sensor))
        .toList();
  }

  /** The container's openings that overlap the span, in order of their start. */
  public List<Opening> openings(ContainerId id, Span span) {
    return snapshot.openings().stream()
        .filter(opening -> opening.container().equals(id) && opening.span().overlaps(span))
        .sorted(Comparator.comparing(opening -> opening.span().from()))
        .toList();
  }

  /** All openings of a container, in no order. */
  public List<Opening> openings(ContainerId id) {
    return snapshot.openings().stream().filter(opening -> opening.container().equals(id)).toList();
  }

  /**
   * Whether a suggested opening overlaps a recorded or declined one, and is not to be suggested.
   */
  public boolean isDecided(Opening suggested) {
    return Stream.concat(snapshot.openings().stream(), snapshot.declined().stream())
        .anyMatch(
            known ->
                known.container().equals(suggested.container())
                    && known.span().overlaps(suggested.span()));
  }

  /** The opening that includes that instant; empty if the container is closed. */
  public Optional<Opening> openingAt(ContainerId id, Instant at) {
    return snapshot.openings().stream()
        .filter(opening -> opening.container().equals(id) && opening.span().contains(at))
        .findFirst();
  }

  public Container add(ContainerSettings settings, Instant now) {
    return change(
        () -> {
          ContainerId id =
              ContainerId.forName(settings.name(), new HashSet<>(snapshot.containers().keySet()));
          Container container = new Container(id, settings, now);
          store.put(container);
          reload(Set.of(id));
          return container;
        });
  }

  /** Changes a container; empty when there is none with that id. */
  public Optional<Container> change(ContainerId id, ContainerSettings settings) {
    return change(
        () -> {
          Container old = snapshot.containers().get(id);
          if (old == null) {
            return Optional.empty();
          }
          Container changed = new Container(id, settings, old.createdAt());
          store.put(changed);
          reload(Set.of(id));
          return Optional.of(changed);
        });
  }

  /** Deletes a container; false if there is none with that id. */
  public boolean remove(ContainerId id) {
    return change(
        () -> {
          if (!snapshot.containers().containsKey(id)) {
            return false;
          }
          store.remove(id);
          reload(Set.of(id));
          return true;
        });
  }

  /**
   * Places a sensor in a container for a time span; replaces earlier placements within that span.
   *
   * @param place a container, {@link ContainerId#ROOM}, or null for no place
   * @param start truncated to whole milliseconds
   * @param end truncated to whole milliseconds; null for no end
   * @throws InvalidInput when there is no such container or the span is empty
   */
  public void place(
      SensorId sensor, @Nullable ContainerId place, Instant start, @Nullable Instant end) {
    Instant from = start.truncatedTo(ChronoUnit.MILLIS);
    Instant until = end == null ? null : end.truncatedTo(ChronoUnit.MILLIS);
    if (until != null && !until.isAfter(from)) {
      throw InvalidInput.after("until");
    }
    arrange(
        () -> {
          Placement added = place == null ? null : new Placement(sensor, place, from, until);
          return Map.of(sensor, Placements.replaced(placementsOf(sensor), from, until, added));
        });
  }

  /**
   * Replaces all placements of some sensors at once.
   *
   * @param change called while no other change runs; returns the new placements of each sensor, or
   *     throws and changes nothing
   * @throws InvalidInput when a container does not exist
   */
  public void arrange(Supplier<Map<SensorId, List<Placement>>> change) {
    change(() -> store(change.get()));
  }

  private Set<ContainerId> store(Map<SensorId, List<Placement>> placements) {
    Set<ContainerId> touched = new HashSet<>();
    placements.forEach(
        (sensor, list) -> {
          touched.addAll(placesOf(sensor));
          for (Placement placement : list) {
            if (touched.add(placement.container())
                && !placement.container().equals(ContainerId.ROOM)) {
              requireContainer(placement.container());
            }
          }
        });
    store.replacePlacements(placements);
    reload(touched);
    return touched;
  }

  public void calibrate(SensorId sensor, Calibration calibration) {
    change(
        () -> {
          store.putCalibration(sensor, calibration);
          reload(placesOf(sensor));
          return calibration;
        });
  }

  private Set<ContainerId> placesOf(SensorId sensor) {
    Set<ContainerId> places = new HashSet<>();
    placementsOf(sensor).forEach(placement -> places.add(placement.container()));
    return places;
  }

  /**
   * Adds a calibration point. From then on the points of its quantity replace the constant offset.
   *
   * @throws InvalidInput if the sensor's points would give no usable correction, see {@link
   *     CalibrationRules#checkTogether}
   */
  public void addCalibrationPoint(CalibrationPoint point, Instant now) {
    change(
        () -> {
          List<CalibrationPoint> together = pointsLike(point);
          together.add(point);
          CalibrationRules.checkTogether(together);
          store.addCalibrationPoint(point, now);
          reload(placesOf(point.sensor()));
          return point;
        });
  }

  /**
   * Removes a calibration point.
   *
   * @return false if the sensor has no point with this id
   * @throws InvalidInput if the remaining points would give no usable correction
   */
  public boolean removeCalibrationPoint(SensorId sensor, long id, Instant now) {
    return change(
        () -> {
          Optional<CalibrationPoint> removed =
              calibrationPoints(sensor).stream()
                  .filter(stored -> stored.id() == id)
                  .map(CalibrationPoint.Stored::point)
                  .findFirst();
          removed.ifPresent(
              point -> {
                List<CalibrationPoint> remaining = pointsLike(point);
                remaining.remove(point);
                CalibrationRules.checkTogether(remaining);
                store.removeCalibrationPoint(id, now);
                reload(placesOf(sensor));
              });
          return removed.isPresent();
        });
  }

  /** The points of the same sensor and quantity, in a new list. */
  private List<CalibrationPoint> pointsLike(CalibrationPoint point) {
    List<CalibrationPoint> points = new ArrayList<>();
    for (CalibrationPoint.Stored stored : calibrationPoints(point.sensor())) {
      if (stored.point().quantity() == point.quantity()) {
        points.add(stored.point());
      }
    }
    return points;
  }

  /**
   * Records that the container is being opened.
   *
   * @throws InvalidInput when there is no such container
   */
  public void open(Opening opening) {
    change(() -> record(opening));
  }

  private Opening record(Opening opening) {
    requireContainer(opening.container());
    store.addOpening(opening);
    reload(Set.of(opening.container()));
    return opening;
  }

  /**
   * Records that the container is opened now. If it is already open, extends the current opening to
   * the later of the two ends.
   *
   * @return the current opening
   * @throws InvalidInput when there is no such container
   */
  public Opening openNow(ContainerId id, Duration time, Instant now) {
    Span requested = new Span(now, now.plus(time));
    return change(
        () ->
            record(
                openingAt(id, now)
                    .map(current -> extended(current, requested))
                    .orElse(new Opening(id, requested))));
  }

  private static Opening extended(Opening current, Span requested) {
    Instant end = current.span().to();
    Instant later = end.isAfter(requested.to()) ? end : requested.to();
    return new Opening(current.container(), new Span(current.span().from(), later));
  }

  /**
   * Records that the container has been closed: ends its current openings now.
   *
   * @return the ended openings; empty if the container was not open
   */
  public List<Opening> close(ContainerId id, Instant now) {
    return change(
        () -> {
          List<Opening> ended =
              snapshot.openings().stream()
                  .filter(opening -> opening.container().equals(id) && opening.span().contains(now))
                  .map(opening -> new Opening(id, new Span(opening.span().from(), now)))
                  .toList();
          ended.forEach(this::record);
          return ended;
        });
  }

  /**
   * Records that the grower declined a suggested opening. It is not suggested again.
   *
   * @throws InvalidInput when there is no such container
   */
  public void decline(Opening suggested) {
    change(
        () -> {
          requireContainer(suggested.container());
          store.addDeclinedOpening(suggested);
          reload(Set.of(suggested.container()));
          return suggested;
        });
  }

  private void requireContainer(ContainerId id) {
    if (container(id).isEmpty()) {
      throw InvalidInput.notFound("container", id.value());
    }
  }
}
