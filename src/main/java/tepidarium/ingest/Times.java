package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * When a reading was measured. Its own time counts where it is sane; a reading that came alone may
 * fall back on the time of arrival; one of a backlog or of a retained message may not, because it
 * is older than its arrival by an unknown time.
 *
 * @param alone whether the message holds this reading only
 * @param rejects takes the reasons why a time, or the reading with it, was not taken
 */
record Times(
    Instant arrivedAt, boolean retained, boolean alone, BiConsumer<RejectCode, String> rejects) {
  /** The most that a sensor's clock may run ahead of this service's. */
  static final Duration MOST_AHEAD = Duration.ofMinutes(5);

  /** The last year that this service's own clock can name and still be right. */
  private static final Instant LATEST = Instant.parse("9999-12-31T00:00:00Z");

  private static final String NO_RETAIN =
      "when it was measured cannot be known: send at with it, or publish without the retain flag";

  /** An instant, and whether the sensor sent it or it was worked out from the arrival. */
  record Stamp(Instant at, boolean fromSensor) {}

  static Times ofWhole(Outcome outcome) {
    return of(outcome, true, outcome::reject);
  }

  static Times of(Outcome outcome, boolean alone, BiConsumer<RejectCode, String> rejects) {
    Message message = outcome.message();
    return new Times(message.arrivedAt(), message.delivery().retained(), alone, rejects);
  }

  /** Whether this service's own clock is set, without which no time can be judged. */
  static boolean canJudge(Instant arrivedAt) {
    return !arrivedAt.isBefore(Reading.EARLIEST) && arrivedAt.isBefore(LATEST);
  }

  /** The instant of a reading with these fields; null where the reading is rejected. */
  @Nullable Stamp of(@Nullable JsonNode at, @Nullable JsonNode age) {
    JsonNode stamp = Json.given(at);
    if (stamp != null) {
      return ofClock(stamp);
    }
    JsonNode seconds = Json.given(age);
    Instant worked = seconds == null ? ofArrival() : ofAge(seconds);
    return worked == null ? null : new Stamp(worked, false);
  }

  private @Nullable Stamp ofClock(JsonNode at) {
    Instant told = Stamps.read(at);
    if (told != null && isSane(told)) {
      return new Stamp(told, true);
    }
    String problem =
        told != null
            ? "clock says " + told
            : "at "
                + Json.show(at)
                + " is not a time such as 2026-03-01T06:00:00Z, epoch seconds or milliseconds";
    Instant arrival = insteadOf(problem);
    return arrival == null ? null : new Stamp(arrival, false);
  }

  private boolean isSane(Instant told) {
    return !told.isBefore(Reading.EARLIEST)
        && Duration.between(arrivedAt, told).compareTo(MOST_AHEAD) <= 0;
  }

  private @Nullable Instant ofAge(JsonNode age) {
    if (retained) {
      return reject("a retained message with age only: " + NO_RETAIN);
    }
    double seconds = Numbers.of(age);
    if (Double.isNaN(seconds)) {
      return insteadOf("age " + Json.show(age) + " is not a number of seconds");
    }
    if (seconds < 0) {
      return reject("age " + Json.show(age) + " is negative: send the seconds since measuring");
    }
    if (seconds * 1000 > Duration.between(Reading.EARLIEST, arrivedAt).toMillis()) {
      return reject("age " + Json.show(age) + " s reaches back before 2010: send it in seconds");
    }
    return arrivedAt.minusMillis(Math.round(seconds * 1000));
  }

  private @Nullable Instant ofArrival() {
    if (retained) {
      return reject("a retained message without at: " + NO_RETAIN);
    }
    return alone
        ? arrivedAt
        : reject("neither at nor age in a backlog, whose entries are not of one instant: send one");
  }

  /** The time of arrival in place of one that cannot be used, where that is allowed. */
  private @Nullable Instant insteadOf(String problem) {
    if (retained) {
      return reject(problem + "; retained, so " + NO_RETAIN);
    }
    if (!alone) {
      return reject(
          problem + "; in a backlog its true time cannot be known: set the clock or send age");
    }
    rejects.accept(
        RejectCode.TIME,
        problem + "; kept at the time of arrival: set the sensor's clock or send age");
    return arrivedAt;
  }

  private @Nullable Instant reject(String reason) {
    rejects.accept(retained ? RejectCode.RETAINED : RejectCode.TIME, reason);
    return null;
  }
}
