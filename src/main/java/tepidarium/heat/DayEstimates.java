package tepidarium.heat;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Estimates the heat of days from their lowest and highest temperatures, and compares it with the
 * measured heat of days that also have readings. Estimates are never added to measured heat.
 *
 * @param days oldest first
 */
public record DayEstimates(List<Day> days) {
  /**
   * A day counts as measured if at most 15 min, about a hundredth of it, are missing. Common
   * practice, no source.
   */
  static final Duration MAX_MISSING = Duration.ofMinutes(15);

  /**
   * One day.
   *
   * @param estimate heat estimated by the single-sine method, °C·h
   * @param measured heat from readings, °C·h; null if the day is not measured
   */
  public record Day(DayExtremes entered, double estimate, @Nullable Double measured) {
    /** The estimate less the measured heat, °C·h; null if the day is not measured. */
    public @Nullable Double difference() {
      return measured == null ? null : estimate - measured;
    }
  }

  public DayEstimates {
    days = List.copyOf(days);
  }

  /**
   * Estimates days.
   *
   * @param measured heat of local days from readings; missing days were not measured
   * @param zone time zone of the day boundaries; a day has 23 or 25 h when the clocks change
   */
  public static DayEstimates of(
      List<DayExtremes> entered, Map<LocalDate, HeatSum> measured, HeatRule rule, ZoneId zone) {
    List<Day> days = new ArrayList<>();
    for (DayExtremes day : entered) {
      Duration length =
          Duration.between(day.day().atStartOfDay(zone), day.day().plusDays(1).atStartOfDay(zone));
      double hours = length.toMillis() / HeatSum.MS_PER_HOUR;
      HeatSum sum = measured.getOrDefault(day.day(), HeatSum.ZERO);
      boolean whole = sum.coveredMs() >= length.minus(MAX_MISSING).toMillis();
      days.add(new Day(day, day.degreeHours(rule, hours), whole ? sum.degreeHours() : null));
    }
    return new DayEstimates(days);
  }

  /** The estimated heat of the days that were not measured, °C·h. */
  public double unmeasured() {
    return days.stream().filter(day -> day.measured() == null).mapToDouble(Day::estimate).sum();
  }

  /** The number of days that are also measured. */
  public int both() {
    return (int) days.stream().filter(day -> day.measured() != null).count();
  }

  /** The mean of estimate less measured heat over the days that have both, °C·h a day. */
  public OptionalDouble meanDifference() {
    return days.stream()
        .map(Day::difference)
        .flatMap(Stream::ofNullable)
        .mapToDouble(Double::doubleValue)
        .average();
  }
}
