package tepidarium.fault;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.fault.InventedSeries.DAY;
import static tepidarium.fault.InventedSeries.MINUTES;
import static tepidarium.fault.InventedSeries.at;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;

/** Detection and false alarms on random series. */
class FaultRulesProperties {
  private static List<Fault> faults(Samples samples) {
    List<SensorDay> days = new ArrayList<>();
    List<Fault> faults = new ArrayList<>();
    for (long day = DAY - 1; day < DAY + 3; day++) {
      days.add(InventedSeries.search(day, Quantity.TEMPERATURE, samples));
    }
    days.forEach(day -> faults.addAll(day.faults()));
    faults.addAll(DayTrends.of(days));
    return Faults.merged(faults);
  }

  @Property(tries = 25)
  void soundSensorsGiveNoFalseAlarm(
      @ForAll long seed,
      @ForAll @DoubleRange(max = 0.5) double noise,
      @ForAll @IntRange(max = 3) int resolution,
      @ForAll boolean onMat,
      @ForAll boolean withOpenings,
      @ForAll boolean steadyNight,
      @ForAll @IntRange(min = MINUTES - 1439, max = MINUTES) int now) {
    double step = new double[] {0.01, 0.0625, 0.1, 1}[resolution];
    Random random = new Random(seed);
    IntToDoubleFunction closed =
        onMat ? InventedSeries.mat(random) : InventedSeries.closet(random, noise, step);
    IntToDoubleFunction used = withOpenings ? InventedSeries.opened(closed) : closed;
    Samples samples =
        InventedSeries.of(steadyNight ? InventedSeries.steadyAtNight(used) : used)
            .between(at(0), at(now));
    assertEquals(List.of(), faults(samples));
  }

  @Property(tries = 25)
  void aSpikeIsFoundWhereverItLies(
      @ForAll long seed,
      @ForAll @IntRange(min = 1, max = MINUTES - 2) int minute,
      @ForAll @DoubleRange(min = 7, max = 30) double height,
      @ForAll boolean up) {
    IntToDoubleFunction sound = InventedSeries.closet(new Random(seed), 0.1, 0.0625);
    Samples samples =
        InventedSeries.of(
            i -> sound.applyAsDouble(i) + (i == minute ? (up ? height : -height) : 0));
    List<Fault> faults = faults(samples);
    assertEquals(List.of(FaultKind.SPIKE), faults.stream().map(Fault::kind).toList());
    assertEquals(at(minute), faults.get(0).from().toEpochMilli());
  }

  @Property(tries = 25)
  void aStuckValueIsFoundWhereverItLies(
      @ForAll long seed,
      @ForAll @IntRange(max = MINUTES - 400) int start,
      @ForAll @IntRange(min = 361, max = 3_000) int length) {
    IntToDoubleFunction sound = InventedSeries.closet(new Random(seed), 0.1, 0.0625);
    int end = Math.min(start + length, MINUTES - 1);
    Samples samples =
        InventedSeries.of(i -> i >= start && i <= end ? 30.53 : sound.applyAsDouble(i));
    List<Fault> faults =
        faults(samples).stream().filter(one -> one.kind() == FaultKind.STUCK).toList();
    assertTrue(!faults.isEmpty(), "not found");
    long foundMs =
        faults.stream().mapToLong(one -> one.to().toEpochMilli() - one.from().toEpochMilli()).sum();
    long longMs = at(end) - at(start);
    boolean unknownBefore = start < StuckRule.LEAST_READINGS;
    assertTrue(unknownBefore || foundMs >= 0.9 * longMs, foundMs + " of " + longMs + " ms");
    assertTrue(foundMs <= longMs, foundMs + " of " + longMs + " ms");
  }

  /** The cut into days changes nothing: the same readings of error codes are counted once. */
  @Property(tries = 25)
  void eachErrorCodeIsCountedOnce(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int codes) {
    Random random = new Random(seed);
    boolean[] coded = new boolean[MINUTES];
    for (int i = 0; i < codes; i++) {
      coded[random.nextInt(MINUTES)] = true;
    }
    int expected = 0;
    for (boolean one : coded) {
      expected += one ? 1 : 0;
    }
    IntToDoubleFunction sound = InventedSeries.closet(random, 0.1, 0.0625);
    List<Fault> faults = faults(InventedSeries.of(i -> coded[i] ? 85 : sound.applyAsDouble(i)));
    assertTrue(faults.stream().allMatch(one -> one.kind() == FaultKind.POWER_ON), faults::toString);
    assertEquals(expected, faults.stream().mapToInt(Fault::readings).sum());
  }
}
