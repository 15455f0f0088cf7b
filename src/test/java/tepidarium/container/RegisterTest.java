package tepidarium.container;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

class RegisterTest {
  private static final Instant NOON = Instant.parse("2026-03-01T12:00:00Z");
  private static final SensorId SENSOR = new SensorId("s1");
  private static final SensorId OTHER = new SensorId("s2");

  private final MemoryContainers store = new MemoryContainers();
  private final Register register = new Register(store);
  private final List<Set<ContainerId>> told = new ArrayList<>();
  private Container bag;
  private Container box;

  @BeforeEach
  void twoContainers() {
    box = register.add(named("Box"), NOON.plusSeconds(1));
    bag = register.add(named("Bag"), NOON);
    register.listen(told::add);
  }

  @Test
  void aBlockedListenerBlocksNeitherReadersNorWritersAndTheOrderIsKept() throws Exception {
    CountDownLatch blocked = new CountDownLatch(1);
    CountDownLatch free = new CountDownLatch(1);
    List<Set<ContainerId>> seen = new CopyOnWriteArrayList<>();
    register.listen(
        touched -> {
          blocked.countDown();
          await(free);
          seen.add(touched);
        });
    CompletableFuture<Void> first =
        CompletableFuture.runAsync(() -> register.change(bag.id(), named("First")));
    await(blocked);

    CompletableFuture<Void> others =
        CompletableFuture.runAsync(
            () -> {
              register.change(box.id(), named("Second"));
              register.calibrate(SENSOR, Calibration.NONE);
              register.change(bag.id(), named("Third"));
            });
    others.get(10, TimeUnit.SECONDS);
    assertEquals("Third", register.container(bag.id()).orElseThrow().name());
    assertEquals(List.of(), seen);

    free.countDown();
    first.get(10, TimeUnit.SECONDS);
    assertEquals(List.of(Set.of(bag.id()), Set.of(box.id()), Set.of(), Set.of(bag.id())), seen);
  }

  private static void await(CountDownLatch latch) {
    try {
      assertTrue(latch.await(10, TimeUnit.SECONDS));
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void containersAreListedOldestFirstAndFoundById() {
    assertEquals(List.of(bag, box), register.containers());
    assertEquals(Optional.of(box), register.container(new ContainerId("box")));
    assertEquals(Optional.empty(), register.container(new ContainerId("jar")));
  }

  @Test
  void anotherContainerOfTheSameNameGetsANumber() {
    assertEquals(new ContainerId("bag-2"), register.add(named("bag"), NOON).id());
  }

  @Test
  void aChangeKeepsTheIdAndTheCreationTime() {
    Container changed = register.change(bag.id(), named("Mango bag")).orElseThrow();
    assertEquals(new Container(bag.id(), named("Mango bag"), NOON), changed);
    assertEquals(Optional.of(changed), register.container(bag.id()));
    assertEquals(List.of(Set.of(bag.id())), told);
    assertEquals(Optional.empty(), register.change(new ContainerId("jar"), named("Jar")));
  }

  @Test
  void aRemovedContainerTakesItsPlacementsAndOpeningsWithIt() {
    register.place(SENSOR, bag.id(), NOON, null);
    register.open(new Opening(bag.id(), new Span(NOON, NOON.plusSeconds(60))));
    assertTrue(register.remove(bag.id()));
    assertEquals(Optional.empty(), register.container(bag.id()));
    assertEquals(List.of(), register.placementsOf(SENSOR));
    assertEquals(Optional.empty(), register.openingAt(bag.id(), NOON));
    assertFalse(register.remove(bag.id()));
  }

  @Test
  void anOpeningCanBeExtendedAndEndedEarly() {
    Duration ten = Duration.ofMinutes(10);
    register.openNow(bag.id(), ten, NOON);
    Instant later = NOON.plusSeconds(300);
    assertEquals(
        new Opening(bag.id(), new Span(NOON, later.plus(ten))),
        register.openNow(bag.id(), ten, later));
    register.openNow(bag.id(), Duration.ofMinutes(1), later);
    assertTrue(register.openingAt(bag.id(), later.plusSeconds(599)).isPresent());

    assertEquals(List.of(), register.close(box.id(), later));
    Opening ended = new Opening(bag.id(), new Span(NOON, later));
    assertEquals(List.of(ended), register.close(bag.id(), later));
    assertEquals(Optional.empty(), register.openingAt(bag.id(), later));
    assertEquals(
        List.of(ended), register.openings(bag.id(), new Span(NOON, NOON.plusSeconds(9_999))));
    assertThrows(
        IllegalArgumentException.class,
        () -> register.openNow(new ContainerId("attic"), ten, NOON));
  }

  @Test
  void aPlacementHoldsFromItsStart() {
    register.place(SENSOR, bag.id(), NOON, null);
    assertEquals(Optional.empty(), register.placeOf(SENSOR, NOON.minusMillis(1)));
    assertEquals(Optional.of(bag.id()), register.placeOf(SENSOR, NOON));
    assertEquals(Optional.of(bag.id()), register.placeOf(SENSOR, NOON.plusSeconds(999_999)));
    assertEquals(Optional.empty(), register.placeOf(OTHER, NOON));
  }

  @Test
  void movingASensorEndsItsOldPlacementAndReportsBothContainers() {
    register.place(SENSOR, bag.id(), NOON, null);
    told.clear();
    register.place(SENSOR, box.id(), NOON.plusSeconds(60), null);
    assertEquals(
        List.of(
            new Placement(SENSOR, bag.id(), NOON, NOON.plusSeconds(60)),
            new Placement(SENSOR, box.id(), NOON.plusSeconds(60), null)),
        register.placementsOf(SENSOR));
    assertEquals(List.of(Set.of(bag.id(), box.id())), told);
  }

  @Test
  void aStretchInTheMiddleSplitsAPlacementInTwo() {
    register.place(SENSOR, bag.id(), NOON, null);
    register.place(SENSOR, null, NOON.plusSeconds(10), NOON.plusSeconds(20));
    assertEquals(
        List.of(
            new Placement(SENSOR, bag.id(), NOON, NOON.plusSeconds(10)),
            new Placement(SENSOR, bag.id(), NOON.plusSeconds(20), null)),
        register.placementsOf(SENSOR));
  }

  @Test
  void aSensorMayBePlacedInTheRoom() {
    register.place(SENSOR, ContainerId.ROOM, NOON, null);
    assertEquals(Optional.of(ContainerId.ROOM), register.placeOf(SENSOR, NOON));
    assertEquals(1, register.placementsIn(ContainerId.ROOM).size());
    assertEquals(Optional.empty(), register.container(ContainerId.ROOM));
  }

  @Test
  void theSensorsOfAContainerAreInTheOrderOfTheirPlacements() {
    register.place(OTHER, bag.id(), NOON, null);
    register.place(SENSOR, bag.id(), NOON.plusSeconds(1), null);
    List<SensorId> sensors =
        register.placementsIn(bag.id()).stream().map(Placement::sensor).toList();
    assertEquals(List.of(OTHER, SENSOR), sensors);
  }

  @Test
  void aPlaceThatDoesNotExistIsRefusedByName() {
    ContainerId jar = new ContainerId("jar");
    IllegalArgumentException refusal =
        assertThrows(IllegalArgumentException.class, () -> register.place(SENSOR, jar, NOON, null));
    assertEquals("there is no container \"jar\"", refusal.getMessage());
    Opening opening = new Opening(jar, new Span(NOON, NOON.plusSeconds(1)));
    assertThrows(IllegalArgumentException.class, () -> register.open(opening));
    assertEquals(List.of(), told);
  }

  @Test
  void anEmptyStretchIsRefusedAlsoOneShorterThanAMillisecond() {
    for (Instant until : List.of(NOON, NOON.minusSeconds(1), NOON.plusNanos(999_999))) {
      assertThrows(
          IllegalArgumentException.class, () -> register.place(SENSOR, bag.id(), NOON, until));
      assertThrows(IllegalArgumentException.class, () -> register.place(SENSOR, null, NOON, until));
    }
  }

  @Test
  void movingASensorTwiceWithinAMillisecondLeavesNoEmptyPlacement() {
    register.place(SENSOR, bag.id(), NOON.plusNanos(100_000), null);
    register.place(SENSOR, box.id(), NOON.plusNanos(900_000), null);
    assertEquals(
        List.of(new Placement(SENSOR, box.id(), NOON, null)), register.placementsOf(SENSOR));
    register.place(SENSOR, null, NOON.plusNanos(950_000), null);
    assertEquals(List.of(), register.placementsOf(SENSOR));
  }

  @Test
  void anUncalibratedSensorHasNoOffset() {
    assertEquals(Calibration.NONE, register.calibration(SENSOR));
  }

  @Test
  void aCalibrationReportsEveryContainerOfTheSensor() {
    register.place(SENSOR, bag.id(), NOON, NOON.plusSeconds(60));
    register.place(SENSOR, box.id(), NOON.plusSeconds(90), null);
    told.clear();
    Calibration calibration = new Calibration(-0.4, 2, 0.1);
    register.calibrate(SENSOR, calibration);
    assertEquals(calibration, register.calibration(SENSOR));
    assertEquals(List.of(Set.of(bag.id(), box.id())), told);
  }

  @Test
  void calibrationPointsReplaceTheOffsetOfTheirQuantityAlone() {
    register.place(SENSOR, bag.id(), NOON, null);
    register.calibrate(SENSOR, new Calibration(-0.4, 2, 0.1));
    told.clear();
    CalibrationPoint point = point(30.3, 30);
    register.addCalibrationPoint(point, NOON);
    SensorCorrection correction = register.correction(SENSOR);
    assertEquals(25 - 0.3, correction.corrected(Quantity.TEMPERATURE, NOON, 25), 1e-9);
    assertEquals(92, correction.corrected(Quantity.HUMIDITY, NOON, 90), 1e-9);
    assertEquals(List.of(Set.of(bag.id())), told);
    assertEquals(correction.key(), new Register(store).correction(SENSOR).key(), "after a restart");

    long id = register.calibrationPoints(SENSOR).get(0).id();
    assertFalse(register.removeCalibrationPoint(new SensorId("other"), id, NOON));
    assertTrue(register.removeCalibrationPoint(SENSOR, id, NOON));
    assertEquals(24.6, register.correction(SENSOR).corrected(Quantity.TEMPERATURE, NOON, 25), 1e-9);
    assertEquals(0.1, register.correction(SENSOR).error(Quantity.TEMPERATURE, NOON, 25), 1e-9);
  }

  @Test
  void aPointThatMakesTheCorrectionUnusableIsNotStored() {
    register.addCalibrationPoint(point(30.3, 30), NOON);
    assertThrows(InvalidInput.class, () -> register.addCalibrationPoint(point(30.3, 31), NOON));
    assertEquals(1, register.calibrationPoints(SENSOR).size());
  }

  private static CalibrationPoint point(double reading, double trueValue) {
    return new CalibrationPoint(
        SENSOR,
        Quantity.TEMPERATURE,
        NOON,
        reading,
        trueValue,
        0.05,
        CalibrationMethod.COMPARISON,
        null);
  }

  @Test
  void aSuggestedOpeningIsSettledByOneThatWasRecordedOrDeclined() {
    Span noon = new Span(NOON, NOON.plusSeconds(300));
    Opening suggested = new Opening(bag.id(), noon);
    assertFalse(register.isDecided(suggested));
    register.decline(new Opening(bag.id(), new Span(NOON.plusSeconds(299), NOON.plusSeconds(600))));
    assertTrue(register.isDecided(suggested));
    assertEquals(List.of(), register.openings(bag.id(), noon));
    assertFalse(register.isDecided(new Opening(box.id(), noon)));
    register.open(new Opening(box.id(), noon));
    assertTrue(register.isDecided(new Opening(box.id(), noon)));
    assertTrue(new Register(store).isDecided(suggested), "after a restart");
    Opening nowhere = new Opening(new ContainerId("jar"), noon);
    assertThrows(IllegalArgumentException.class, () -> register.decline(nowhere));
  }

  @Test
  void openingsAreFoundByContainerAndTimeInOrderOfTheirStart() {
    Opening late = new Opening(bag.id(), new Span(NOON.plusSeconds(600), NOON.plusSeconds(660)));
    Opening early = new Opening(bag.id(), new Span(NOON, NOON.plusSeconds(60)));
    register.open(late);
    register.open(early);
    Span day = new Span(NOON, NOON.plusSeconds(86_400));
    assertEquals(List.of(early, late), register.openings(bag.id(), day));
    assertEquals(List.of(), register.openings(box.id(), day));
    Span between = new Span(NOON.plusSeconds(60), NOON.plusSeconds(600));
    assertEquals(List.of(), register.openings(bag.id(), between));
    assertEquals(Optional.of(early), register.openingAt(bag.id(), NOON.plusSeconds(59)));
    assertEquals(Optional.empty(), register.openingAt(bag.id(), NOON.plusSeconds(60)));
  }

  @Test
  void aNewRegisterReadsTheStoredState() {
    register.place(SENSOR, bag.id(), NOON, null);
    register.calibrate(SENSOR, new Calibration(1, 0, 0.2));
    Register again = new Register(store);
    assertEquals(register.containers(), again.containers());
    assertEquals(register.placementsOf(SENSOR), again.placementsOf(SENSOR));
    assertEquals(register.calibration(SENSOR), again.calibration(SENSOR));
  }

  @Test
  void aChangeThatTheStoreRefusesIsNeitherShownNorReported() {
    store.breakDown();
    assertThrows(IllegalStateException.class, () -> register.place(SENSOR, bag.id(), NOON, null));
    assertThrows(IllegalStateException.class, () -> register.add(named("Jar"), NOON));
    assertEquals(Optional.empty(), register.placeOf(SENSOR, NOON));
    assertEquals(List.of(bag, box), register.containers());
    assertEquals(List.of(), told);
  }

  private static ContainerSettings named(String name) {
    return new ContainerSettings(name, ContainerKind.BAG, null, 15, null, Band.DEFAULT);
  }
}
