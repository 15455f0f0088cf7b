package tepidarium.bench.soak;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/**
 * How long the simulated service runs, and how often what happens.
 *
 * @param zone time zone of the service, with daylight saving time
 * @param first first local day
 * @param end local day after the last one
 * @param readingEvery interval of the readings of each sensor
 * @param upgrades number of times that the service is stopped, backed up and started again
 * @param rows number of rows of the table, at equal distances
 * @param keepRawDays age at which raw readings are deleted
 */
public record Plan(
    ZoneId zone,
    LocalDate first,
    LocalDate end,
    Duration readingEvery,
    int upgrades,
    int rows,
    int keepRawDays) {
  /** The clock moves by this much; each sensor then sends the readings of this time at once. */
  static final Duration STEP = Duration.ofHours(1);

  /** Three years with a leap day, six changes of the clocks and a reading a minute. */
  public static final Plan THREE_YEARS =
      new Plan(
          ZoneId.of("Europe/Berlin"),
          LocalDate.of(2026, 3, 1),
          LocalDate.of(2029, 3, 1),
          Duration.ofMinutes(1),
          40,
          12,
          365);

  /** Five days: the clocks were changed on 25 February 2012, and the 29th was a leap day. */
  public static final Plan FIVE_DAYS =
      new Plan(
          ZoneId.of("America/Sao_Paulo"),
          LocalDate.of(2012, 2, 25),
          LocalDate.of(2012, 3, 1),
          Duration.ofMinutes(10),
          1,
          2,
          2);

  Instant start() {
    return first.atStartOfDay(zone).toInstant();
  }

  int steps() {
    Instant until = end.atStartOfDay(zone).toInstant();
    return (int) Duration.between(start(), until).dividedBy(STEP);
  }

  int readingsPerStep() {
    return (int) STEP.dividedBy(readingEvery);
  }

  /** Whether something that happens a number of times, at equal distances, happens after a step. */
  boolean falls(int step, int times) {
    return (long) (step + 1) * times / steps() > (long) step * times / steps();
  }
}
