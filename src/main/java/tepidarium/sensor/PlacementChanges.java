package tepidarium.sensor;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

/**
 * Changes the placements of one sensor. Each method returns the placements after the change,
 * earliest first, or refuses the change with its reason and remedy. A sensor is in one place at a
 * time, never before its first reading, and never from a future instant on.
 *
 * @param placements placements before the change, earliest first
 * @param firstReading instant of its first reading; null if it was not heard yet
 * @param names display name of each container
 */
public record PlacementChanges(
    SensorId sensor,
    List<Placement> placements,
    @Nullable Instant firstReading,
    Instant now,
    Function<ContainerId, String> names) {
  public PlacementChanges {
    placements = List.copyOf(placements);
  }

  /**
   * Moves the sensor: ends its present placement and starts the next one.
   *
   * @param to a container or the room; null to take it out of its container
   */
  public List<Placement> moved(@Nullable ContainerId to, Instant from) {
    Instant at = checked(from);
    refuseLater(at);
    Optional<Placement> current = at(at);
    if (to == null && current.isEmpty()) {
      throw new InvalidInput(
          "from",
          "is " + at + ", when " + sensor + " is in no container; nothing to take out",
          InputRule.NOT_PLACED.with(sensor.name()));
    }
    if (current.isPresent() && current.get().container().equals(to)) {
      throw new InvalidInput(
          sensor
              + " is "
              + in(current.get())
              + " already, since "
              + current.get().from()
              + ". To change since when, correct that placement",
          InputRule.PLACED.with(sensor.name(), place(current.get()), current.get().from()));
    }
    List<Placement> changed = endedAt(at);
    if (to != null) {
      changed.add(new Placement(sensor, to, at, null));
    }
    return changed;
  }

  /** Ends the present placement, if there is one, because the sensor is no longer used. */
  public List<Placement> retired(Instant from) {
    Instant at = checked(from);
    refuseLater(at);
    return endedAt(at);
  }

  /** The placement that another sensor takes over at an instant: the present or the last one. */
  public Placement takenOver(Instant from) {
    refuseLater(from);
    return placements.stream()
        .filter(placement -> !placement.from().isAfter(from))
        .reduce((earlier, later) -> later)
        .orElseThrow(
            () ->
                new InvalidInput(
                    "from",
                    "is "
                        + from
                        + ", but "
                        + sensor
                        + " was in no container before. Choose a"
                        + " later time, or place the other sensor directly",
                    InputRule.NEVER_PLACED.with(sensor.name())));
  }

  /** Takes over the placement of another sensor, with its end if that lies after the start. */
  public List<Placement> replacing(Placement other, Instant from) {
    Instant at = checked(from);
    refuseLater(at);
    Instant end = other.until() != null && other.until().isAfter(at) ? other.until() : null;
    at(at)
        .ifPresent(
            current -> {
              throw overlap(at, current, "Take it out of there first");
            });
    List<Placement> changed = new ArrayList<>(placements);
    changed.add(new Placement(sensor, other.container(), at, end));
    return changed;
  }

  /** Replaces all placements by a corrected list. */
  public List<Placement> corrected(List<Placement> wanted) {
    List<Placement> sorted = new ArrayList<>(wanted);
    sorted.sort(Comparator.comparing(Placement::from));
    Placement before = null;
    for (Placement placement : sorted) {
      if (placements.stream().noneMatch(old -> old.from().equals(placement.from()))) {
        checked(placement.from());
      }
      Instant end = before == null ? null : before.until();
      if (before != null && (end == null || end.isAfter(placement.from()))) {
        throw overlap(placement.from(), before, "End that placement at or before this time");
      }
      before = placement;
    }
    return sorted;
  }

  private List<Placement> endedAt(Instant at) {
    List<Placement> changed = new ArrayList<>();
    for (Placement placement : placements) {
      if (!placement.holdsAt(at)) {
        changed.add(placement);
      } else if (placement.from().isBefore(at)) {
        changed.add(new Placement(sensor, placement.container(), placement.from(), at));
      }
    }
    return changed;
  }

  /** A page enters whole minutes, so the whole minute of the first reading is accepted. */
  private Instant checked(Instant from) {
    Instant at = from.truncatedTo(ChronoUnit.MILLIS);
    if (at.isAfter(now)) {
      throw new InvalidInput(
          "from",
          "is " + at + ", which lies in the future. Choose now or an" + " earlier time",
          InputRule.FUTURE.with(now));
    }
    if (firstReading == null && at.isBefore(now.truncatedTo(ChronoUnit.MINUTES))) {
      throw new InvalidInput(
          "from",
          "is "
              + at
              + ", but "
              + sensor
              + " has not been heard yet."
              + " Leave the time empty to place it from now on",
          InputRule.NOT_HEARD.with(sensor.name()));
    }
    if (firstReading != null && at.isBefore(firstReading.truncatedTo(ChronoUnit.MINUTES))) {
      throw new InvalidInput(
          "from",
          "is "
              + at
              + ", before the first reading of "
              + sensor
              + ". Choose "
              + firstReading
              + " or later",
          InputRule.BEFORE_FIRST.with(sensor.name(), firstReading));
    }
    return at;
  }

  private void refuseLater(Instant at) {
    placements.stream()
        .filter(placement -> placement.from().isAfter(at))
        .findFirst()
        .ifPresent(
            later -> {
              throw overlap(at, later, "Choose a later time, or correct that placement first");
            });
  }

  private Optional<Placement> at(Instant at) {
    return placements.stream().filter(placement -> placement.holdsAt(at)).findFirst();
  }

  private InvalidInput overlap(Instant at, Placement other, String remedy) {
    String until = other.until() == null ? "" : " until " + other.until();
    return new InvalidInput(
        "from",
        "is "
            + at
            + ", which overlaps another placement: "
            + sensor
            + " was "
            + in(other)
            + " from "
            + other.from()
            + until
            + ". "
            + remedy,
        InputRule.OVERLAPS.with(sensor.name(), place(other), other.from(), other.until()));
  }

  private String in(Placement placement) {
    String place = place(placement);
    return place == null ? "in the room" : "in \"" + place + '"';
  }

  /** The name of its container; null for the room. */
  private @Nullable String place(Placement placement) {
    return placement.container().equals(ContainerId.ROOM)
        ? null
        : names.apply(placement.container());
  }
}
