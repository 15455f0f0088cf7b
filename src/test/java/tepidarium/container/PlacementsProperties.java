package tepidarium.container;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SensorId;

/** Any sequence of placements of one sensor, on a grid of hours, against a plain array of hours. */
class PlacementsProperties {
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final int HOURS = 16;
  private static final SensorId SENSOR = new SensorId("s1");
  private static final SensorId BYSTANDER = new SensorId("s2");

  /** One call: to a place or nowhere, from an hour, for some hours or from then on. */
  record Move(@Nullable ContainerId place, int from, @Nullable Integer hours) {
    @Nullable Instant until() {
      return hours == null ? null : hour(from + hours);
    }
  }

  @Provide
  Arbitrary<List<Move>> moves() {
    Arbitrary<ContainerId> places =
        Arbitraries.of(ContainerId.ROOM, new ContainerId("bag"), new ContainerId("box"))
            .injectNull(0.2);
    Arbitrary<Integer> lengths = Arbitraries.integers().between(1, 8).injectNull(0.3);
    return Combinators.combine(places, Arbitraries.integers().between(0, HOURS - 1), lengths)
        .as(Move::new)
        .list()
        .ofMaxSize(12);
  }

  @Property
  void aPlacementReplacesOthersOnlyWithinItsSpan(@ForAll("moves") List<Move> moves) {
    Register register = register();
    ContainerId[] expected = new ContainerId[HOURS];
    for (Move move : moves) {
      register.place(SENSOR, move.place(), hour(move.from()), move.until());
      int end = move.hours() == null ? HOURS : Math.min(HOURS, move.from() + move.hours());
      Arrays.fill(expected, move.from(), end, move.place());
    }
    for (int i = 0; i < HOURS; i++) {
      Optional<ContainerId> place = Optional.ofNullable(expected[i]);
      assertEquals(place, register.placeOf(SENSOR, hour(i)), "at hour " + i);
      assertEquals(place, register.placeOf(SENSOR, hour(i + 1).minusMillis(1)), "end of " + i);
    }
    assertEquals(1, register.placementsOf(BYSTANDER).size());
  }

  @Property
  void placementsOfASensorAreInOrderAndDoNotOverlap(@ForAll("moves") List<Move> moves) {
    Register register = register();
    for (Move move : moves) {
      register.place(SENSOR, move.place(), hour(move.from()), move.until());
    }
    Instant free = Instant.MIN;
    for (Placement placement : register.placementsOf(SENSOR)) {
      assertTrue(!placement.from().isBefore(free), placement + " overlaps the one before");
      free = placement.until() == null ? Instant.MAX : placement.until();
    }
  }

  private static Register register() {
    Register register = new Register(new MemoryContainers());
    for (String name : List.of("Bag", "Box")) {
      register.add(
          new ContainerSettings(name, ContainerKind.BAG, null, 15, null, Band.DEFAULT), START);
    }
    register.place(BYSTANDER, new ContainerId("bag"), START, null);
    return register;
  }

  private static Instant hour(int hour) {
    return START.plusSeconds(3600L * hour);
  }
}
