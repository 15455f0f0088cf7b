package tepidarium.alert.notify;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;

/**
 * The daily time span without notices, from the first time of day (inclusive) to the second
 * (exclusive). It crosses midnight if the second is earlier. When the clocks change, each span
 * still starts and ends exactly once. A time of day that occurs twice means its first occurrence. A
 * skipped time of day is shifted forward by the length of the change.
 *
 * @throws IllegalArgumentException when both times are the same
 */
public record QuietHours(LocalTime from, LocalTime until) {
  public QuietHours {
    if (from.equals(until)) {
      throw new IllegalArgumentException("quiet hours must end at another time than they begin");
    }
  }

  /** Whether the instant lies in the quiet hours of the time zone. */
  public boolean at(Instant now, ZoneId zone) {
    LocalDate today = now.atZone(zone).toLocalDate();
    return within(now, today, zone) || within(now, today.minusDays(1), zone);
  }

  private boolean within(Instant now, LocalDate beginsOn, ZoneId zone) {
    LocalDate endsOn = until.isAfter(from) ? beginsOn : beginsOn.plusDays(1);
    Instant begin = beginsOn.atTime(from).atZone(zone).toInstant();
    Instant end = endsOn.atTime(until).atZone(zone).toInstant();
    return !now.isBefore(begin) && now.isBefore(end);
  }
}
