package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The changes of the clocks are those of the EU's directive 2000/84/EC, at 01:00 UTC. */
class QuietHoursTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

  @ParameterizedTest
  @CsvSource({
    "22:00, 07:00, 2026-03-04T20:59:59Z, false",
    "22:00, 07:00, 2026-03-04T21:00:00Z, true",
    "22:00, 07:00, 2026-03-05T05:59:59Z, true",
    "22:00, 07:00, 2026-03-05T06:00:00Z, false",
    "12:00, 14:00, 2026-03-04T11:00:00Z, true",
    "12:00, 14:00, 2026-03-04T13:00:00Z, false",
    "12:00, 14:00, 2026-03-04T23:00:00Z, false",
  })
  void quietHoursLastFromTheFirstTimeToTheSecond(
      LocalTime from, LocalTime until, Instant at, boolean quiet) {
    assertEquals(quiet, new QuietHours(from, until).at(at, BERLIN));
  }

  /** Minutes that are quiet between two instants, and how often it becomes quiet. */
  private static long[] quiet(String from, String until, Instant start, Instant end) {
    QuietHours hours = new QuietHours(LocalTime.parse(from), LocalTime.parse(until));
    long minutes = 0;
    long begins = 0;
    boolean before = false;
    for (Instant at = start; at.isBefore(end); at = at.plus(Duration.ofMinutes(1))) {
      boolean now = hours.at(at, BERLIN);
      minutes += now ? 1 : 0;
      begins += now && !before ? 1 : 0;
      before = now;
    }
    return new long[] {minutes, begins};
  }

  @ParameterizedTest
  @CsvSource({
    // An ordinary night, the short one of spring and the long one of autumn.
    "2026-03-04, 22:00, 07:00, 540",
    "2026-03-28, 22:00, 07:00, 480",
    "2026-10-24, 22:00, 07:00, 600",
    // One that ends at a time that occurs twice ends at the first; one that begins so begins then.
    "2026-10-24, 22:00, 02:30, 270",
    "2026-10-24, 02:30, 04:00, 150",
    // One that ends at a time that is left out ends as long after the change.
    "2026-03-28, 22:00, 02:30, 270",
  })
  void eachNightIsQuietOnceAlsoWhenTheClocksChange(
      String evening, String from, String until, long minutes) {
    Instant noon = Instant.parse(evening + "T11:00:00Z");
    long[] found = quiet(from, until, noon, noon.plus(Duration.ofHours(24)));
    assertEquals(minutes, found[0]);
    assertEquals(1, found[1]);
  }

  @Test
  void quietHoursMustNotEndWhenTheyBegin() {
    LocalTime ten = LocalTime.of(22, 0);
    assertThrows(IllegalArgumentException.class, () -> new QuietHours(ten, ten));
  }
}
