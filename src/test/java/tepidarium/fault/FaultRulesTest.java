package tepidarium.fault;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.fault.InventedSeries.DAY;
import static tepidarium.fault.InventedSeries.at;
import static tepidarium.fault.InventedSeries.closet;
import static tepidarium.fault.InventedSeries.of;
import static tepidarium.fault.InventedSeries.search;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;

/** Each rule against invented readings with one known fault, and against sound ones. */
class FaultRulesTest {
  /** Noon of the searched day. */
  private static final int NOON = 1440 + 720;

  private static IntToDoubleFunction sound() {
    return closet(new Random(1), 0.06, 0.0625);
  }

  private static List<Fault> faults(Quantity quantity, Samples samples) {
    return search(DAY, quantity, samples).faults();
  }

  private static Fault only(Quantity quantity, FaultKind kind, Samples samples) {
    List<Fault> faults = faults(quantity, samples);
    assertEquals(List.of(kind), faults.stream().map(Fault::kind).toList());
    assertTrue(!faults.get(0).reason().isBlank());
    return faults.get(0);
  }

  private static IntToDoubleFunction with(
      IntToDoubleFunction sound, int from, int to, double value) {
    return minute -> minute >= from && minute <= to ? value : sound.applyAsDouble(minute);
  }

  @ParameterizedTest
  @CsvSource({
    "TEMPERATURE, 85, POWER_ON",
    "TEMPERATURE, -127, NOT_CONNECTED",
    "TEMPERATURE, 127.94, RAW_LIMIT",
    "TEMPERATURE, 130, RAW_LIMIT",
    "TEMPERATURE, -45, RAW_LIMIT",
    "TEMPERATURE, 128.87, RAW_LIMIT",
    "TEMPERATURE, -46.85, RAW_LIMIT",
    "TEMPERATURE, 655.35, RAW_LIMIT",
    "TEMPERATURE, 126, OUT_OF_RANGE",
    "HUMIDITY, 119, RAW_LIMIT",
    "HUMIDITY, -6, RAW_LIMIT",
    "HUMIDITY, 111, OUT_OF_RANGE",
    "CARBON_DIOXIDE, 65535, RAW_LIMIT",
    "BATTERY, 65.535, RAW_LIMIT",
  })
  void anErrorCodeIsRecognisedByItsValue(Quantity quantity, double value, FaultKind kind) {
    assertEquals(kind, ErrorCodes.of(quantity, value).orElseThrow());
    assertTrue(kind.isErrorCode());
  }

  /** The next values of a DS18B20 besides 85 °C, and ends of scales that sun and wetness reach. */
  @ParameterizedTest
  @CsvSource({
    "TEMPERATURE, 84.9375", "TEMPERATURE, 85.0625", "TEMPERATURE, -0.0625", "HUMIDITY, 100",
    "HUMIDITY, 0", "LIGHT, 54612.5", "LIGHT, 65535", "BATTERY, 0"
  })
  void aMeasurementIsNoErrorCode(Quantity quantity, double value) {
    assertTrue(ErrorCodes.of(quantity, value).isEmpty());
  }

  @Test
  void codesWithinOneHourMakeOneStretch() {
    IntToDoubleFunction sound = sound();
    Samples samples =
        of(minute -> minute == NOON || minute == NOON + 40 ? 85 : sound.applyAsDouble(minute));
    Fault fault = only(Quantity.TEMPERATURE, FaultKind.POWER_ON, samples);
    assertEquals(Instant.ofEpochMilli(at(NOON)), fault.from());
    assertEquals(Instant.ofEpochMilli(at(NOON + 40)), fault.to());
    assertEquals(2, fault.readings());
  }

  @Test
  void impossibleHeatIsDoubtfulAndNoErrorCode() {
    Samples samples = of(with(sound(), NOON, NOON + 30, 71));
    Fault fault =
        faults(Quantity.TEMPERATURE, samples).stream()
            .filter(one -> one.kind() == FaultKind.IMPLAUSIBLE)
            .findFirst()
            .orElseThrow();
    assertEquals(31, fault.readings());
    assertTrue(!fault.kind().isErrorCode());
  }

  @Test
  void aConstantValueIsStuckIfTheSensorChangesOtherwise() {
    Fault fault =
        only(Quantity.TEMPERATURE, FaultKind.STUCK, of(with(sound(), NOON, NOON + 400, 30.04)));
    assertEquals(Instant.ofEpochMilli(at(NOON)), fault.from());
    assertEquals(401, fault.readings());
    assertEquals(
        List.of(), faults(Quantity.TEMPERATURE, of(with(sound(), NOON, NOON + 300, 30.04))));
  }

  /** A box in a thermostat: nothing tells it from a stuck sensor. */
  @ParameterizedTest
  @ValueSource(doubles = {30, 30.1, 30.0625})
  void aSeriesThatNeverChangesIsNotStuck(double value) {
    assertEquals(List.of(), faults(Quantity.TEMPERATURE, of(minute -> value)));
  }

  /** A sensor with a resolution of 1 °C changes a few times a day. */
  @Test
  void aCoarseSensorIsNotStuck() {
    assertEquals(List.of(), faults(Quantity.TEMPERATURE, of(closet(new Random(2), 0.02, 1))));
  }

  @Test
  void darknessAndSaturationAreNotStuck() {
    assertEquals(List.of(), faults(Quantity.LIGHT, of(minute -> 0)));
    Samples wet = of(with(minute -> 90 + minute % 7, NOON, NOON + 500, 98));
    assertEquals(List.of(), faults(Quantity.HUMIDITY, wet));
  }

  @Test
  void oneReadingFarFromBothNeighboursIsASpike() {
    Fault fault = only(Quantity.TEMPERATURE, FaultKind.SPIKE, of(with(sound(), NOON, NOON, 20.5)));
    assertEquals(1, fault.readings());
    assertEquals(20.5, fault.low());
    assertEquals(List.of(), faults(Quantity.TEMPERATURE, of(with(sound(), NOON, NOON, 33))));
  }

  @Test
  void aStepThatStaysIsAJump() {
    IntToDoubleFunction sound = sound();
    Samples samples = of(minute -> sound.applyAsDouble(minute) + (minute < NOON ? 0 : 6));
    Fault fault = only(Quantity.TEMPERATURE, FaultKind.JUMP, samples);
    assertEquals(Instant.ofEpochMilli(at(NOON)), fault.to());
    assertEquals(6, fault.high() - fault.low(), 0.3);
  }

  @Test
  void anOpeningIsNeitherSpikeNorJump() {
    Samples samples = of(InventedSeries.opened(sound()));
    assertEquals(List.of(), faults(Quantity.TEMPERATURE, samples));
  }

  @Test
  void humidityAtTheEndOfItsScaleIsSaturated() {
    IntToDoubleFunction moist = minute -> 94 + minute % 3;
    Fault fault =
        only(
            Quantity.HUMIDITY,
            FaultKind.SATURATED_HUMIDITY,
            of(with(moist, NOON, NOON + 90, 99.9)));
    assertEquals(91, fault.readings());
    assertEquals(List.of(), faults(Quantity.HUMIDITY, of(with(moist, NOON, NOON + 50, 99.9))));
  }

  @Test
  void saturatedAirThatCoolsCondenses() {
    Samples humidity = of(minute -> 99.2);
    Samples cooling = of(minute -> 30 - (minute < NOON ? 0 : Math.min(2, (minute - NOON) / 60.0)));
    List<Fault> faults =
        search(DAY, Map.of(Quantity.HUMIDITY, humidity, Quantity.TEMPERATURE, cooling)).faults();
    assertEquals(List.of(FaultKind.CONDENSATION), faults.stream().map(Fault::kind).toList());
    // It has cooled by 0.5 °C from minute 30 after noon to minute 120, and stays at 28 °C
    // afterwards.
    assertEquals(Instant.ofEpochMilli(at(NOON + 30)), faults.get(0).from());
    assertEquals(Instant.ofEpochMilli(at(NOON + 120)), faults.get(0).to());
    Samples dry = of(minute -> 96);
    assertEquals(
        List.of(),
        search(DAY, Map.of(Quantity.HUMIDITY, dry, Quantity.TEMPERATURE, cooling)).faults());
  }

  @Test
  void aFullLightCounterIsDoubtful() {
    Fault fault =
        only(
            Quantity.LIGHT,
            FaultKind.SATURATED_LIGHT,
            of(with(minute -> 0, NOON, NOON + 5, 54_612.5)));
    assertTrue(!fault.kind().isErrorCode());
  }

  @Test
  void aValueStuckForWholeDaysIsFoundByComparingDays() {
    Samples samples = of(with(sound(), 1440, InventedSeries.MINUTES, 30.04));
    List<SensorDay> days = days(samples);
    assertEquals(
        List.of(DAY, DAY + 1, DAY + 2),
        Faults.merged(all(days)).stream()
            .filter(one -> one.kind() == FaultKind.STUCK)
            .flatMap(
                one ->
                    LongStream.rangeClosed(
                            SensorDay.dayOf(one.from().toEpochMilli()),
                            SensorDay.dayOf(one.to().toEpochMilli()))
                        .boxed())
            .toList());
    assertEquals(List.of(), all(days(of(minute -> 30.0625))));
  }

  /** A sensor that is steady since midnight is judged after 6 h, however often it reports. */
  @ParameterizedTest
  @CsvSource({"20, 0", "25, 0", "300, 0", "359, 0", "370, 370"})
  void aDayThatHasJustBegunIsNotStuck(int minutes, int stuckReadings) {
    int midnight = 3 * 1440;
    Samples samples =
        of(with(sound(), midnight, InventedSeries.MINUTES, 30.04))
            .between(at(0), at(midnight + minutes));
    assertEquals(
        stuckReadings, Faults.merged(all(days(samples))).stream().mapToInt(Fault::readings).sum());
  }

  /** A value stuck since the day before stays reported after midnight. */
  @Test
  void aStuckValueIsReportedOnAfterMidnight() {
    int now = 3 * 1440 + 20;
    Samples samples =
        of(with(sound(), 2 * 1440 + 300, InventedSeries.MINUTES, 30.04)).between(at(0), at(now));
    List<Fault> faults = Faults.merged(all(days(samples)));
    assertEquals(1, faults.size());
    assertEquals(Instant.ofEpochMilli(at(now - 1)), faults.get(0).to());
  }

  /** The day has many temperatures, but one humidity. */
  @Test
  void oneReadingOfAQuantityIsNotStuck() {
    List<SensorDay> days = new ArrayList<>();
    Samples.Builder humidity = new Samples.Builder(InventedSeries.MINUTES);
    humidity.addAll(of(minute -> 60 + minute % 7).between(at(0), at(3 * 1440)));
    humidity.add(at(3 * 1440 + 60), 64);
    Map<Quantity, Samples> samples =
        Map.of(Quantity.HUMIDITY, humidity.build(), Quantity.TEMPERATURE, of(sound()));
    for (long day = DAY - 1; day < DAY + 3; day++) {
      days.add(search(day, samples));
    }
    assertEquals(List.of(), all(days));
  }

  private static List<SensorDay> days(Samples samples) {
    List<SensorDay> days = new ArrayList<>();
    for (long day = DAY - 1; day < DAY + 3; day++) {
      days.add(search(day, Quantity.TEMPERATURE, samples));
    }
    return days;
  }

  private static List<Fault> all(List<SensorDay> days) {
    List<Fault> faults = new ArrayList<>(DayTrends.of(days));
    days.forEach(day -> faults.addAll(day.faults()));
    return faults;
  }

  private static SensorDay day(
      SensorId sensor, int number, double interval, double volts, double meanC) {
    double[] means = new double[24];
    Arrays.fill(means, meanC);
    return new SensorDay(
        sensor,
        DAY + number,
        List.of(),
        100,
        interval,
        volts,
        Map.of(Quantity.TEMPERATURE, new QuantityDay(100, 50, 0, 0, meanC)),
        Map.of(Quantity.TEMPERATURE, means));
  }

  @Test
  void faultsOfManySensorsAreMergedBySensor() {
    List<Fault> faults = new ArrayList<>();
    for (int i = 0; i < 2_000; i++) {
      SensorId sensor = new SensorId("s" + i % 1_000);
      Instant at = Instant.ofEpochMilli(at(0) + (i % 2) * 60_000L);
      faults.add(ArrivalFault.ofValue(sensor, Quantity.TEMPERATURE, at, -127).asStretch());
    }
    assertEquals(1_000, Faults.merged(faults).size());
  }

  @Test
  void anIntervalThatDoublesIsReported() {
    List<SensorDay> days = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      days.add(day(InventedSeries.PROBE, i, i < 8 ? 300 : 660, 3, 30));
    }
    List<Fault> faults = Faults.merged(DayTrends.of(days));
    assertEquals(1, faults.size());
    assertEquals(FaultKind.LENGTHENING_INTERVAL, faults.get(0).kind());
    assertEquals(days.get(8).span().from(), faults.get(0).from());
    assertEquals(
        "Reports every 11 min instead of every 5 min. Check its radio and battery.",
        faults.get(0).reason());
  }

  @ParameterizedTest
  @CsvSource({"1.5, 90 s", "30, 30 min", "600, 10 h", "29847240, 20727 days"})
  void aWrongClockIsToldInAFittingUnit(double minutes, String words) {
    Fault fault =
        ArrivalFault.ofClock(InventedSeries.PROBE, Instant.ofEpochMilli(at(0)), minutes)
            .asStretch();
    assertTrue(fault.reason().contains("by at least " + words + '.'), fault.reason());
  }

  @Test
  void aBatteryThatFallsFastIsReported() {
    List<SensorDay> days = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      days.add(day(InventedSeries.PROBE, i, 300, i < 8 ? 3.9 : 3.6, 30));
    }
    List<Fault> faults = Faults.merged(DayTrends.of(days));
    assertEquals(List.of(FaultKind.FALLING_BATTERY), faults.stream().map(Fault::kind).toList());
    List<SensorDay> slow = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      slow.add(day(InventedSeries.PROBE, i, 300, 4.1 - i * 0.01, 30));
    }
    assertEquals(List.of(), DayTrends.of(slow));
  }

  @Test
  void twoSensorsThatDriftApartAreReportedFromTheSecondDayOn() {
    SensorId second = new SensorId("second");
    List<SensorDay> a = new ArrayList<>();
    List<SensorDay> b = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      a.add(day(InventedSeries.PROBE, i, 60, 3, 30));
      b.add(day(second, i, 60, 3, 30 + i * 0.25));
    }
    DriftRule rule =
        new DriftRule((day, quantity, hour, raw) -> raw, (day, quantity, value) -> 0.5);
    List<Fault> faults = Faults.merged(rule.of(a, b));
    // Allowed are 0.5 + 0.5 + 0.5 = 1.5 °C; day 7 is the first beyond, with 1.75 °C.
    assertEquals(1, faults.size());
    assertEquals(b.get(7).span().from(), faults.get(0).from());
    assertEquals(InventedSeries.PROBE, faults.get(0).other());
    assertTrue(faults.get(0).reason().contains("2.25 °C"), faults.get(0).reason());
    DriftRule calibrated =
        new DriftRule((day, quantity, hour, raw) -> raw, (day, quantity, value) -> 1);
    assertEquals(List.of(), calibrated.of(a, b));
  }

  @Test
  void aClockIsWrongIfNoReadingIsFreshForAnHour() {
    ClockCheck check = new ClockCheck();
    Instant start = Instant.parse("2026-03-01T06:00:00Z");
    List<Integer> reported = new ArrayList<>();
    for (int minute = 0; minute <= 90; minute += 10) {
      Instant arrival = start.plusSeconds(minute * 60L);
      if (check.arrived(InventedSeries.PROBE, arrival.minusSeconds(3600), arrival).isPresent()) {
        reported.add(minute);
      }
    }
    assertEquals(List.of(60, 70, 80, 90), reported);
  }

  /** A node sends twelve readings once an hour; the last of them is fresh. */
  @Test
  void aBacklogIsNoWrongClock() {
    ClockCheck check = new ClockCheck();
    Instant start = Instant.parse("2026-03-01T06:00:00Z");
    for (int hour = 0; hour < 10; hour++) {
      Instant arrival = start.plusSeconds(hour * 3600L);
      for (int age = 55; age >= 0; age -= 5) {
        assertTrue(
            check
                .arrived(InventedSeries.PROBE, arrival.minusSeconds(age * 60L), arrival)
                .isEmpty());
      }
    }
  }
}
