package tepidarium.alert.notify;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

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
    return end(now, zone) != null;
  }

  /** The end of the quiet hours in which the instant lies; null if it lies in none. */
  public @Nullable Instant end(Instant now, ZoneId zone) {
    LocalDate today = now.atZone(zone).toLocalDate();
    for (LocalDate beginsOn : List.of(today, today.minusDays(1))) {
      if (within(now, beginsOn, zone)) {
        return end(beginsOn, zone);
      }
    }
    return null;
  }

  private Instant end(LocalDate beginsOn, ZoneId zone) {
    LocalDate endsOn = until.isAfter(from) ? beginsOn : beginsOn.plusDays(1);
    return endsOn.atTime(until).atZone(zone).toInstant();
  }

  private boolean within(Instant now, LocalDate beginsOn, ZoneId zone) {
    Instant begin = beginsOn.atTime(from).atZone(zone).toInstant();
    return !now.isBefore(begin) && now.isBefore(end(beginsOn, zone));
  }
}
