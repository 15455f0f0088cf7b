package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.heat.PlaceTrial.FitStatus;
import tepidarium.heat.SimulatedPlace.Truth;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;

/** Simulated places, whose truth is known. */
class PlaceTrialTest {
  private static final Truth SIX_HOURS = Truth.plain(6, 13.5);

  private static PlaceTrial.Low low(PlaceTrial trial) {
    assertNotNull(trial.low(), () -> trial.toString());
    return trial.low();
  }

  /** By hand: 9 h at 30 °C, then 10 min straight down to 20 °C and 50 min there: 28.92 °C. */
  @Test
  void theMeanInsideIsOverTimeHoweverOftenTheSensorReports() {
    double byHand = (9 * 60 * 30 + 10 * 25 + 50 * 20) / 600.0;
    Samples.Builder seldom = new Samples.Builder(40);
    Samples.Builder often = new Samples.Builder(100);
    Samples.Builder room = new Samples.Builder(40);
    for (int minute = 0; minute <= 600; minute++) {
      double insideC = minute <= 540 ? 30 : Math.max(20, 30 - (minute - 540));
      boolean turn = minute == 550;
      if (minute % 30 == 0 || turn) {
        seldom.add(SampleRecords.minute(minute), insideC);
        room.add(SampleRecords.minute(minute), 18);
      }
      if (minute % 30 == 0 || minute > 540) {
        often.add(SampleRecords.minute(minute), insideC);
      }
    }
    PlaceTrial.Question question = new PlaceTrial.Question(29.5, null, 0.2);
    for (Samples inside : List.of(seldom.build(), often.build())) {
      PlaceTrial trial =
          PlaceTrial.of(
              inside, room.build(), SampleRecords.span(0, 601), SampleRecords.HALF_HOUR, question);
      assertEquals(byHand, trial.insideMeanC(), 1e-9);
    }
  }

  @Test
  void theStatedIntervalsHoldTheTruthAsOftenAsTheySay() {
    TrialCoverage.Tally tally = TrialCoverage.run(45, 7);
    assertTrue(tally.told() >= 40, tally.toString());
    // Of 45 at 95 %, fewer than 38 would come once in a thousand times.
    int least = 38 - (45 - tally.told());
    assertTrue(tally.tau() >= least, tally.toString());
    assertTrue(tally.rise() >= least, tally.toString());
    assertTrue(tally.room() >= least, tally.toString());
  }

  @Test
  void timeConstantAndRiseAreRecoveredClosely() {
    PlaceTrial trial = new SimulatedPlace(SIX_HOURS, 4).trial(40.0);
    assertEquals(FitStatus.DETERMINED, trial.outcome());
    assertNotNull(trial.tauHours());
    assertNotNull(trial.riseC());
    assertEquals(6, trial.tauHours().value(), 1);
    assertEquals(13.5, trial.riseC().value(), 0.3);
    assertEquals(16, low(trial).roomC().value(), 0.3);
    String words = TrialWords.of(trial);
    assertTrue(
        words.startsWith("This place falls below 29.5 °C when the room stays below 1"), words);
    // No cycles show: a lamp of 40 W that burns all day takes 0.96 kWh at most.
    assertNotNull(trial.energy());
    assertEquals(0.96, trial.energy().kilowattHoursPerDay().high(), 1e-9);
    assertTrue(trial.energy().atMost());
  }

  /** By the solution of the equation: T falls to the limit after τ ln((T₀ − T∞)/(limit − T∞)). */
  @Test
  void timesToFallAreThoseOfTheEquation() {
    PlaceTrial trial = new SimulatedPlace(SIX_HOURS, 4).trial(null);
    assertNotNull(trial.tauHours());
    double tau = trial.tauHours().value();
    double mean = trial.insideMeanC();
    assertNotNull(low(trial).hoursToFall());
    double settles = low(trial).limitC() - PlaceTrial.COLDER_C;
    assertEquals(
        tau * Math.log((mean - settles) / (29.5 - settles)),
        low(trial).hoursToFall().value(),
        1e-9);
    assertNotNull(low(trial).hoursWithoutHeat());
    assertEquals(
        tau * Math.log((mean - 18) / (29.5 - 18)), low(trial).hoursWithoutHeat().value(), 0.3);
    assertNull(trial.energy());
  }

  @Test
  void aSteadyRoomGivesNoEstimate() {
    Truth steady = new Truth(6, 13.5, 0, 0.15, new double[0]);
    PlaceTrial trial = new SimulatedPlace(steady, 3).trial(null);
    assertEquals(FitStatus.ROOM_TOO_STEADY, trial.outcome());
    assertNull(trial.tauHours());
    assertNull(trial.low());
    assertTrue(TrialWords.of(trial).startsWith("The room was too steady"));
  }

  /** Rooms that swing by 9 K were called too steady, and steady ones a sign of regulation. */
  @ParameterizedTest
  @CsvSource({
    // τ in h, rise, swing of the room, draughts, thermostat, hours of the trial, reasons
    "1, 13, 0, 0.05, 0, 120, ROOM_TOO_STEADY DETERMINED",
    "6, 13, 0, 0.3, 0, 48, ROOM_TOO_STEADY",
    "24, 13, 0.5, 0.3, 0, 24, ROOM_TOO_STEADY",
    "1, 13, 4.5, 0.3, 0, 48, UNCLEAR DETERMINED",
    "6, 22, 4.5, 0.3, 31, 24, HARDLY_FOLLOWS REGULATED",
    "6, 22, 4.5, 0.05, 31, 48, HARDLY_FOLLOWS REGULATED",
    "6, 22, 2.5, 0.3, 31, 24, HARDLY_FOLLOWS REGULATED"
  })
  void theReasonForNoFiguresIsTheTrueOne(
      double tau,
      double rise,
      double swing,
      double draught,
      double held,
      int hours,
      String reasons) {
    double[] thermostat = held == 0 ? new double[0] : new double[] {held - 0.1, held + 0.1};
    Truth truth = new Truth(tau, rise, swing, draught, thermostat);
    for (long seed = 1; seed <= 4; seed++) {
      PlaceTrial trial = new SimulatedPlace(truth, seed, 300, hours).trial(null);
      assertTrue(
          List.of(reasons.split(" ")).contains(trial.outcome().name()),
          trial.outcome() + ": " + TrialWords.of(trial));
    }
  }

  @Test
  void aPlaceThatDoesNotFollowItsRoomIsRegulated() {
    SimulatedPlace plain = new SimulatedPlace(SIX_HOURS, 5);
    Samples held = SampleRecords.map(plain.inside, c -> 31 + 0.1 * (c - 31));
    PlaceTrial trial =
        PlaceTrial.of(
            held,
            plain.room,
            plain.span,
            SampleRecords.HALF_HOUR,
            new PlaceTrial.Question(29.5, null, 0.2));
    assertEquals(FitStatus.REGULATED, trial.outcome());
    assertNull(trial.low());
  }

  @Test
  void aSwitchedHeaterShowsItsLimitsItsDutyAndItsFullRise() {
    Truth switched = new Truth(3, 22, 2.5, 0, new double[] {30.5, 32.5});
    SimulatedPlace place = new SimulatedPlace(switched, 6, 60);
    PlaceTrial trial = place.trial(60.0);
    assertNotNull(trial.cycles());
    assertEquals(30.5, trial.cycles().onBelowC(), 0.2);
    assertEquals(32.5, trial.cycles().offAboveC(), 0.2);
    assertEquals(place.duty, trial.cycles().duty().value(), 0.05);
    assertNotNull(trial.energy());
    assertEquals(60 * 24 / 1000.0 * place.duty, trial.energy().kilowattHoursPerDay().value(), 0.08);
    assertEquals(FitStatus.DETERMINED, trial.outcome());
    assertNotNull(trial.riseC());
    assertEquals(22, trial.riseC().value(), 1);
    assertNotNull(trial.tauHours());
    assertEquals(3, trial.tauHours().value(), 0.4);
    assertEquals(7.5, low(trial).roomC().value(), 1);
  }

  @Test
  void withoutRoomOrWithFewHoursItIsTooShort() {
    SimulatedPlace place = new SimulatedPlace(SIX_HOURS, 4);
    PlaceTrial.Question question = new PlaceTrial.Question(29.5, null, 0.2);
    PlaceTrial noRoom =
        PlaceTrial.of(place.inside, Samples.EMPTY, place.span, SampleRecords.HALF_HOUR, question);
    assertEquals(FitStatus.TOO_SHORT, noRoom.outcome());
    PlaceTrial tenHours =
        PlaceTrial.of(
            place.inside,
            place.room,
            SampleRecords.span(0, 600),
            SampleRecords.HALF_HOUR,
            question);
    assertEquals(FitStatus.TOO_SHORT, tenHours.outcome());
    assertTrue(TrialWords.of(tenHours).contains("Check that a sensor is placed in the room."));
  }

  @Test
  void aGapInTheMiddleDoesNotMisleadTheFit() {
    SimulatedPlace place = new SimulatedPlace(SIX_HOURS, 4);
    Samples.Builder holed = new Samples.Builder(place.inside.size());
    holed.addAll(place.inside.between(Long.MIN_VALUE, SampleRecords.minute(20 * 60)));
    holed.addAll(place.inside.between(SampleRecords.minute(26 * 60), Long.MAX_VALUE));
    PlaceTrial trial =
        PlaceTrial.of(
            holed.build(),
            place.room,
            place.span,
            SampleRecords.HALF_HOUR,
            new PlaceTrial.Question(29.5, null, 0.2));
    assertEquals(FitStatus.DETERMINED, trial.outcome());
    assertEquals(42, trial.coveredHours(), 0.3);
    assertTrue(TrialCoverage.holds(trial.riseC(), 13.5), trial.toString());
  }
}
