package tepidarium.heat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Days entered by hand stay apart from measured heat. */
class DayEstimatesTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final HeatRule RULE = new HeatRule(15, null);

  private static HeatSum measured(double degreeHours, Duration covered) {
    long coveredMs = covered.toMillis();
    return new HeatSum(degreeHours, 24, coveredMs, Duration.ofHours(24).toMillis() - coveredMs, 0);
  }

  /** From 20 to 30 °C, all above 15 °C: 10 °C for as many hours as the day has. */
  @Test
  void aDayHasTwentyThreeOrTwentyFiveHoursWhenTheClocksChange() {
    List<DayExtremes> entered =
        List.of(
            new DayExtremes(LocalDate.parse("2026-03-28"), 20, 30),
            new DayExtremes(LocalDate.parse("2026-03-29"), 20, 30),
            new DayExtremes(LocalDate.parse("2026-10-25"), 20, 30));
    DayEstimates told = DayEstimates.of(entered, Map.of(), RULE, BERLIN);
    assertEquals(240, told.days().get(0).estimate(), 1e-9);
    assertEquals(230, told.days().get(1).estimate(), 1e-9);
    assertEquals(250, told.days().get(2).estimate(), 1e-9);
    assertEquals(720, told.unmeasured(), 1e-9);
    assertTrue(told.meanDifference().isEmpty());
  }

  @Test
  void daysThatWereAlsoMeasuredGiveTheDifferenceAndAreNotAdded() {
    LocalDate first = LocalDate.parse("2026-03-01");
    List<DayExtremes> entered =
        List.of(
            new DayExtremes(first, 20, 30),
            new DayExtremes(first.plusDays(1), 20, 30),
            new DayExtremes(first.plusDays(2), 20, 30),
            new DayExtremes(first.plusDays(3), 20, 30));
    Map<LocalDate, HeatSum> measured =
        Map.of(
            first.plusDays(1), measured(236, Duration.ofMinutes(1_425)),
            first.plusDays(2), measured(250, Duration.ofHours(24)),
            first.plusDays(3), measured(235, Duration.ofMinutes(1_424)));
    DayEstimates told = DayEstimates.of(entered, measured, RULE, BERLIN);
    assertNull(told.days().get(0).difference());
    assertEquals(4, told.days().get(1).difference(), 1e-9);
    assertEquals(-10, told.days().get(2).difference(), 1e-9);
    assertNull(told.days().get(3).measured(), "more than 15 min are missing");
    assertEquals(2, told.both());
    assertEquals(480, told.unmeasured(), 1e-9);
    assertEquals(-3, told.meanDifference().orElseThrow(), 1e-9);
  }

  @Test
  void anInvalidDayIsRefused() {
    LocalDate day = LocalDate.parse("2026-03-01");
    assertThrows(IllegalArgumentException.class, () -> new DayExtremes(day, 20.5, 20));
    assertThrows(IllegalArgumentException.class, () -> new DayExtremes(day, -41, 20));
    assertThrows(IllegalArgumentException.class, () -> new DayExtremes(day, 20, 81));
    assertThrows(IllegalArgumentException.class, () -> new DayExtremes(day, Double.NaN, 20));
    assertEquals(20, new DayExtremes(day, 20, 20).maxC());
  }
}
