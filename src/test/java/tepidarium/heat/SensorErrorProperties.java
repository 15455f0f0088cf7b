package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.reading.SampleRecords.HALF_HOUR;
import static tepidarium.reading.SampleRecords.minutes;
import static tepidarium.reading.SampleRecords.span;
import static tepidarium.reading.SampleRecords.whole;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import org.junit.jupiter.api.Test;
import tepidarium.reading.RecordDomain;
import tepidarium.reading.Samples;

/** The stated error of heat is the heat of the same record moved by the sensor's error. */
@Domain(RecordDomain.class)
@Domain(DomainContext.Global.class)
class SensorErrorProperties {
  private static final double BY_HAND = 1e-9;

  private static SensorError of(Samples record, HeatRule rule, double errorC) {
    return TemperatureHistogram.of(record, whole(record), HALF_HOUR).sensorError(rule, errorC);
  }

  /** By hand: at 14.8 °C nothing counts; at 15.3 °C, 0.3 °C·h an hour does. */
  @Test
  void justBelowTheBaseTheErrorIsOnlyUpwards() {
    SensorError error = of(minutes(0, 14.8, 30, 14.8, 60, 14.8), new HeatRule(15, null), 0.5);
    assertEquals(0, error.less(), BY_HAND);
    assertEquals(0.3, error.more(), BY_HAND);
    assertEquals(0.3, error.either(), BY_HAND);
  }

  @Test
  void farAboveTheCeilingTheSensorErrorHasNoEffect() {
    SensorError error = of(minutes(0, 36, 30, 36, 60, 36), new HeatRule(15, 34.0), 0.5);
    assertEquals(0, error.either(), BY_HAND);
  }

  @Test
  void betweenBaseAndCeilingTheErrorIsTheSensorErrorTimesTheHours() {
    SensorError error = of(minutes(0, 25, 30, 28, 60, 25), new HeatRule(15, 34.0), 0.5);
    assertEquals(0.5, error.less(), BY_HAND);
    assertEquals(0.5, error.more(), BY_HAND);
  }

  @Test
  void gapsHaveNoSensorError() {
    Samples record = minutes(0, 25, 30, 25);
    TemperatureHistogram histogram = TemperatureHistogram.of(record, span(0, 600), HALF_HOUR);
    assertEquals(0.25, histogram.sensorError(new HeatRule(15, null), 0.5).more(), BY_HAND);
  }

  /** Quarters of a degree lie on the edges of the histogram, so that the bounds are exact. */
  @Property
  void theHeatEqualsThatOfTheShiftedRecord(
      @ForAll Samples record,
      @ForAll @IntRange(min = -30, max = 200) int base,
      @ForAll @IntRange(min = 1, max = 100) int more,
      @ForAll @IntRange(min = 0, max = 8) int error) {
    HeatRule rule = new HeatRule(base / 4.0, Math.min(57, (base + more) / 4.0));
    double errorC = error / 4.0;
    double heat = heat(record, rule);
    SensorError told = of(record, rule, errorC);
    assertEquals(heat - heat(record.plus(-errorC), rule), told.less(), 1e-7);
    assertEquals(heat(record.plus(errorC), rule) - heat, told.more(), 1e-7);
  }

  /** Elsewhere it is off by no more than the histogram is: 1/16 °C, once for each heat compared. */
  @Property
  void forAnyErrorTheHeatIsCloseToThatOfTheShiftedRecord(
      @ForAll Samples record,
      @ForAll @DoubleRange(min = 0, max = 30) double base,
      @ForAll @DoubleRange(min = 0, max = 2) double errorC) {
    HeatRule rule = new HeatRule(base, null);
    double covered = DegreeHours.of(record, whole(record), rule, HALF_HOUR).coveredHours();
    double heat = heat(record, rule);
    SensorError told = of(record, rule, errorC);
    double close = covered / 8 + 1e-9;
    assertEquals(heat - heat(record.plus(-errorC), rule), told.less(), close);
    assertEquals(heat(record.plus(errorC), rule) - heat, told.more(), close);
    assertTrue(told.less() >= 0 && told.more() >= 0);
  }

  private static double heat(Samples record, HeatRule rule) {
    return DegreeHours.of(record, whole(record), rule, HALF_HOUR).degreeHours();
  }
}
