package tepidarium.alert.notify;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;

/**
 * A stretch of each day in which nobody is disturbed, from the first time of day until, not
 * including, the second, across midnight where the second is the earlier one. Each stretch begins
 * and ends once also when the clocks change: a time of day that occurs twice means the first, one
 * that is left out means as long after the change as it would have been.
 *
 * @throws IllegalArgumentException when both times are the same
 */
public record QuietHours(LocalTime from, LocalTime until) {
  public QuietHours {
    if (from.equals(until)) {
      throw new IllegalArgumentException("quiet hours must end at another time than they begin");
    }
  }

  /** Whether they hold at this instant in this place. */
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
