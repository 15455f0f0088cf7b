package tepidarium.disk;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.TheilSen;

/**
 * Forecasts when the disk is full. Days left = free bytes / growth of the data folder, bytes a day.
 * The growth is the slope of a robust straight line ({@link TheilSen}) through the daily sizes of
 * the last 30 days. A single step, such as an import or a deletion, hardly changes it. Space that
 * other programs use up is not forecast. The bounds are common practice, no source.
 *
 * @param daysLeft days until the disk is full; infinite if the folder does not grow; null if the
 *     record is too short
 * @param earliest first day on which the forecast may be known; null if it is known
 */
public record DiskForecast(@Nullable Double daysLeft, @Nullable LocalDate earliest) {
  /** Length of the past that is used, in days. */
  public static final int LOOKS_BACK_DAYS = 30;

  /** Shortest time between the first and the last size, in days. */
  static final int MIN_DAYS = 7;

  private static final double DAYS_PER_WEEK = 7;
  private static final double DAYS_PER_YEAR = 365.25;
  private static final double DAYS_PER_MONTH = DAYS_PER_YEAR / 12;
  private static final int MAX_YEARS = 10;

  /** From this many units on, the next larger unit is used. */
  private static final double MAX_DAYS = 14;

  private static final double MAX_WEEKS = 9;
  private static final double MAX_MONTHS = 24;

  /**
   * Forecasts.
   *
   * @param sizes in ascending order of days, at most one a day
   * @param freeBytes free space on the disk now
   */
  public static DiskForecast of(List<DailySize> sizes, long freeBytes, LocalDate today) {
    List<DailySize> used =
        sizes.stream()
            .filter(one -> age(one, today) >= 0 && age(one, today) <= LOOKS_BACK_DAYS)
            .toList();
    if (used.isEmpty()) {
      return new DiskForecast(null, today.plusDays(MIN_DAYS));
    }
    LocalDate first = used.get(0).day();
    LocalDate last = used.get(used.size() - 1).day();
    if (used.size() < TheilSen.FEWEST_POINTS || first.plusDays(MIN_DAYS).isAfter(last)) {
      return new DiskForecast(null, earliest(first, last, used.size(), today));
    }
    double bytesPerDay =
        TheilSen.of(
                used.stream().mapToDouble(one -> -age(one, today)).toArray(),
                used.stream().mapToDouble(DailySize::bytes).toArray())
            .slope();
    double days = bytesPerDay > 0 ? freeBytes / bytesPerDay : Double.POSITIVE_INFINITY;
    return new DiskForecast(days, null);
  }

  private static LocalDate earliest(LocalDate first, LocalDate last, int known, LocalDate today) {
    LocalDate longEnough = first.plusDays(MIN_DAYS);
    LocalDate enoughDays = last.plusDays(Math.max(0, TheilSen.FEWEST_POINTS - known));
    return Stream.of(longEnough, enoughDays, today).max(LocalDate::compareTo).orElseThrow();
  }

  private static long age(DailySize size, LocalDate today) {
    return ChronoUnit.DAYS.between(size.day(), today);
  }

  /** Such as "full in about 14 months at this rate". */
  public String words() {
    if (daysLeft == null) {
      return "when it will be full cannot be told before " + earliest;
    }
    return "full in " + rounded(daysLeft) + " at this rate";
  }

  private static String rounded(double days) {
    if (days < 1) {
      return "less than a day";
    }
    if (days > MAX_YEARS * DAYS_PER_YEAR) {
      return "more than " + MAX_YEARS + " years";
    }
    if (days < MAX_DAYS) {
      return about(days, "day");
    }
    if (days < MAX_WEEKS * DAYS_PER_WEEK) {
      return about(days / DAYS_PER_WEEK, "week");
    }
    return days < MAX_MONTHS * DAYS_PER_MONTH
        ? about(days / DAYS_PER_MONTH, "month")
        : about(days / DAYS_PER_YEAR, "year");
  }

  private static String about(double number, String unit) {
    long whole = Math.round(number);
    return "about " + whole + " " + unit + (whole == 1 ? "" : "s");
  }
}
