package tepidarium.container;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * The register of containers, sensor placements, calibrations and openings. Queries use an
 * in-memory snapshot, because every incoming reading needs one. Changes are written to the store
 * first. Thread-safe; changes run one at a time.
 */
public final class Register {
  /** Called after a change, on the changing thread, with the affected containers. */
  public interface Listener {
    void changed(Set<ContainerId> touched);
  }

  private record Snapshot(
      Map<ContainerId, Container> containers,
      Map<ContainerId, List<Placement>> byContainer,
      Map<SensorId, List<Placement>> bySensor,
      Map<SensorId, Calibration> calibrations,
      List<Opening> openings,
      List<Opening> declined) {}

  private final ContainerStore store;
  private final List<Listener> listeners = new CopyOnWriteArrayList<>();
  private volatile Snapshot snapshot;

  public Register(ContainerStore store) {
    this.store = store;
    this.snapshot = load(store);
  }

  public void listen(Listener listener) {
    listeners.add(listener);
  }

  private static Snapshot load(ContainerStore store) {
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
    return new Snapshot(
        containers,
        byContainer,
        bySensor,
        store.calibrations(),
        store.openings(),
        store.declinedOpenings());
  }

  private void reload(Set<ContainerId> touched) {
    snapshot = load(store);
    listeners.forEach(listener -> listener.changed(touched));
  }

  /** All containers, oldest first. */
  public List<Container> containers() {
    return List.copyOf(snapshot.containers().values());
  }

  public Optional<Container> container(ContainerId id) {
    return Optional.ofNullable(snapshot.containers().get(id));
  }

  /** The container in which the sensor was placed at that instant; empty if in none. */
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
    return snapshot.calibrations().getOrDefault(sensor, Calibration.NONE);
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

  /** Whether a suggested opening is already decided: it overlaps a recorded or declined one. */
  public boolean settled(Opening suggested) {
    return Stream.concat(snapshot.openings().stream(), snapshot.declined().stream())
        .anyMatch(
            known ->
                known.container().equals(suggested.container())
                    && known.span().overlaps(suggested.span()));
  }

  /** The opening that is going on at that instant, if any. */
  public Optional<Opening> openingAt(ContainerId id, Instant at) {
    return snapshot.openings().stream()
        .filter(opening -> opening.container().equals(id) && opening.span().contains(at))
        .findFirst();
  }

  public synchronized Container add(ContainerSettings settings, Instant now) {
    ContainerId id =
        ContainerId.forName(settings.name(), new HashSet<>(snapshot.containers().keySet()));
    Container container = new Container(id, settings, now);
    store.put(container);
    reload(Set.of(id));
    return container;
  }

  /** Changes a container; empty when there is none with that id. */
  public synchronized Optional<Container> change(ContainerId id, ContainerSettings settings) {
    Container old = snapshot.containers().get(id);
    if (old == null) {
      return Optional.empty();
    }
    Container changed = new Container(id, settings, old.createdAt());
    store.put(changed);
    reload(Set.of(id));
    return Optional.of(changed);
  }

  /** Deletes a container; false if there is none with that id. */
  public synchronized boolean remove(ContainerId id) {
    if (!snapshot.containers().containsKey(id)) {
      return false;
    }
    store.remove(id);
    reload(Set.of(id));
    return true;
  }

  /**
   * Places a sensor in a container for a time span; replaces earlier placements within that span.
   *
   * @param place a container, {@link ContainerId#ROOM}, or null for nowhere
   * @param start cut to whole milliseconds
   * @param end cut to whole milliseconds; null for "from then on"
   * @throws InvalidInput when there is no such container or the stretch is empty
   */
  public synchronized void place(
      SensorId sensor, @Nullable ContainerId place, Instant start, @Nullable Instant end) {
    Instant from = start.truncatedTo(ChronoUnit.MILLIS);
    Instant until = end == null ? null : end.truncatedTo(ChronoUnit.MILLIS);
    if (place != null && !place.equals(ContainerId.ROOM) && container(place).isEmpty()) {
      throw new InvalidInput("there is no container \"" + place + '"');
    }
    if (until != null && !until.isAfter(from)) {
      throw new InvalidInput("until", until + " must lie after from " + from);
    }
    List<Placement> old = placementsOf(sensor);
    Placement added = place == null ? null : new Placement(sensor, place, from, until);
    List<Placement> replaced = Placements.replaced(old, from, until, added);
    Set<ContainerId> touched = new HashSet<>();
    old.forEach(placement -> touched.add(placement.container()));
    replaced.forEach(placement -> touched.add(placement.container()));
    store.replacePlacements(sensor, replaced);
    reload(touched);
  }

  public synchronized void calibrate(SensorId sensor, Calibration calibration) {
    store.putCalibration(sensor, calibration);
    Set<ContainerId> touched = new HashSet<>();
    placementsOf(sensor).forEach(placement -> touched.add(placement.container()));
    reload(touched);
  }

  /**
   * Records that the container is being opened.
   *
   * @throws InvalidInput when there is no such container
   */
  public synchronized void open(Opening opening) {
    refuseUnknown(opening.container());
    store.addOpening(opening);
    reload(Set.of(opening.container()));
  }

  /**
   * Records that the container is opened now. If it is open already, the later of both ends counts.
   *
   * @return the current opening
   * @throws InvalidInput when there is no such container
   */
  public synchronized Opening openNow(ContainerId id, Duration time, Instant now) {
    Span asked = new Span(now, now.plus(time));
    Opening opening =
        openingAt(id, now)
            .map(
                going -> {
                  Instant end = going.span().to();
                  Instant later = end.isAfter(asked.to()) ? end : asked.to();
                  return new Opening(id, new Span(going.span().from(), later));
                })
            .orElse(new Opening(id, asked));
    open(opening);
    return opening;
  }

  /**
   * Records that the container has been closed: ends its current openings now.
   *
   * @return the ended openings; empty if the container was not open
   */
  public synchronized List<Opening> close(ContainerId id, Instant now) {
    List<Opening> ended =
        snapshot.openings().stream()
            .filter(opening -> opening.container().equals(id) && opening.span().contains(now))
            .map(opening -> new Opening(id, new Span(opening.span().from(), now)))
            .toList();
    ended.forEach(this::open);
    return ended;
  }

  /**
   * Declines a suggested opening, so that it is not suggested again.
   *
   * @throws InvalidInput when there is no such container
   */
  public synchronized void decline(Opening suggested) {
    refuseUnknown(suggested.container());
    store.addDeclinedOpening(suggested);
    reload(Set.of(suggested.container()));
  }

  private void refuseUnknown(ContainerId id) {
    if (container(id).isEmpty()) {
      throw new InvalidInput("there is no container \"" + id + '"');
    }
  }
}
