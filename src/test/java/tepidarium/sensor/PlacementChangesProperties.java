package tepidarium.sensor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

class PlacementChangesProperties {
  private static final SensorId SENSOR = new SensorId("probe");
  private static final int NOW = 20;

  private static Instant hour(int hour) {
    return Instant.EPOCH.plusSeconds(3_600L * hour);
  }

  /** Any moves one after another: never two places at a time, and the past stays as it was. */
  @Property
  void anyMovesLeaveOnePlaceAtATimeAndThePastUntouched(
      @ForAll @Size(max = 8) List<@IntRange(min = -2, max = NOW + 2) Integer> hours,
      @ForAll @Size(8) List<@IntRange(min = 0, max = 3) Integer> places) {
    List<Placement> placements = List.of();
    for (int i = 0; i < hours.size(); i++) {
      PlacementChanges changes =
          new PlacementChanges(SENSOR, placements, hour(0), hour(NOW), ContainerId::value);
      int place = places.get(i);
      ContainerId to = place == 0 ? null : new ContainerId("jar-" + place);
      List<Placement> before = placements;
      try {
        placements = changes.moved(to, hour(hours.get(i)));
      } catch (InvalidInput e) {
        continue;
      }
      assertTrue(hours.get(i) >= 0 && hours.get(i) <= NOW, "a move outside of the known time");
      for (int hour = 0; hour <= NOW; hour++) {
        Instant at = hour(hour);
        Optional<ContainerId> found = placeAt(placements, at);
        Optional<ContainerId> expected =
            hour < hours.get(i) ? placeAt(before, at) : Optional.ofNullable(to);
        assertEquals(expected, found, "at " + hour);
      }
      assertEquals(
          placements,
          new PlacementChanges(SENSOR, before, hour(0), hour(NOW), ContainerId::value)
              .corrected(placements));
    }
  }

  private static Optional<ContainerId> placeAt(List<Placement> placements, Instant at) {
    List<Placement> holding = placements.stream().filter(one -> one.holdsAt(at)).toList();
    assertTrue(holding.size() <= 1, () -> "two places at once: " + holding);
    return holding.stream().map(Placement::container).findFirst();
  }
}
