package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * Determines when a reading was measured. Uses the time from the sensor if it is plausible.
 * Otherwise a reading that is alone in its message gets the time of arrival. A reading of a backlog
 * or of a retained message is rejected, because it is older than its arrival by an unknown time.
 *
 * @param alone whether the message has only this reading
 * @param rejects receives the reasons for rejected times and readings
 */
record Times(
    Instant arrivedAt, boolean retained, boolean alone, BiConsumer<RejectCode, String> rejects) {
  /** Maximum time by which a sensor's clock may be ahead of the service's clock. */
  static final Duration MAX_AHEAD = Duration.ofMinutes(5);

  /** Latest plausible time of the service's own clock. */
  private static final Instant MAX_SERVICE_TIME = Instant.parse("9999-12-31T00:00:00Z");

  private static final String NO_RETAIN =
      "its time of measuring is unknown: send at, or publish without the retain flag";

  /**
   * An instant, and whether the sensor sent it. Otherwise it was computed from the time of arrival.
   *
   * @param refused the time that the sensor sent, if it was refused; null otherwise
   */
  record Stamp(Instant at, boolean fromSensor, @Nullable Instant refused) {}

  static Times ofWhole(ReadingCollector collector) {
    return of(collector, true, collector::reject);
  }

  static Times of(
      ReadingCollector collector, boolean alone, BiConsumer<RejectCode, String> rejects) {
    Message message = collector.message();
    return new Times(message.arrivedAt(), message.delivery().retained(), alone, rejects);
  }

  /** The same without reporting rejects. */
  Times silently() {
    return new Times(arrivedAt, retained, alone, (code, reason) -> {});
  }

  /** Whether the service's own clock is plausible. If not, no time can be checked. */
  static boolean canJudge(Instant arrivedAt) {
    return !arrivedAt.isBefore(Reading.EARLIEST) && arrivedAt.isBefore(MAX_SERVICE_TIME);
  }

  /** The instant of a reading with these fields; null if the reading is rejected. */
  @Nullable Stamp of(@Nullable JsonNode at, @Nullable JsonNode age) {
    JsonNode stamp = PayloadJson.present(at);
    if (stamp != null) {
      return ofClock(stamp);
    }
    JsonNode seconds = PayloadJson.present(age);
    Instant computed = seconds == null ? ofArrival() : ofAge(seconds);
    return computed == null ? null : new Stamp(computed, false, null);
  }

  private @Nullable Stamp ofClock(JsonNode at) {
    Instant sent = Stamps.read(at);
    if (sent != null && isPlausible(sent)) {
      return new Stamp(sent, true, null);
    }
    String problem =
        sent != null
            ? "clock says " + sent
            : "at "
                + PayloadJson.show(at)
                + " is not a time such as 2026-03-01T06:00:00Z, epoch seconds or milliseconds";
    Instant arrival = arrivalInsteadOf(problem);
    return arrival == null ? null : new Stamp(arrival, false, sent);
  }

  private boolean isPlausible(Instant sent) {
    return !sent.isBefore(Reading.EARLIEST)
        && Duration.between(arrivedAt, sent).compareTo(MAX_AHEAD) <= 0;
  }

  private @Nullable Instant ofAge(JsonNode age) {
    if (retained) {
      return reject("a retained message with age only: " + NO_RETAIN);
    }
    double seconds = Numbers.of(age);
    if (Double.isNaN(seconds)) {
      return arrivalInsteadOf("age " + PayloadJson.show(age) + " is not a number of seconds");
    }
    if (seconds < 0) {
      return reject(
          "age " + PayloadJson.show(age) + " is negative: send the seconds since measuring");
    }
    if (seconds * 1000 > Duration.between(Reading.EARLIEST, arrivedAt).toMillis()) {
      return reject("age " + PayloadJson.show(age) + " s is a time before 2010: send seconds");
    }
    return arrivedAt.minusMillis(Math.round(seconds * 1000));
  }

  private @Nullable Instant ofArrival() {
    if (retained) {
      return reject("a retained message without at: " + NO_RETAIN);
    }
    return alone
        ? arrivedAt
        : reject(
            "neither at nor age, and the entries of a backlog have different times: send one of"
                + " them");
  }

  /**
   * Returns the time of arrival instead of an invalid time, if this is allowed; otherwise rejects.
   */
  private @Nullable Instant arrivalInsteadOf(String problem) {
    if (retained) {
      return reject(problem + "; retained, so " + NO_RETAIN);
    }
    if (!alone) {
      return reject(
          problem
              + "; the true time of an entry in a backlog is unknown: set the clock or send age");
    }
    rejects.accept(
        RejectCode.TIME,
        problem + "; stored with the time of arrival: set the sensor's clock or send age");
    return arrivedAt;
  }

  private @Nullable Instant reject(String reason) {
    rejects.accept(retained ? RejectCode.RETAINED : RejectCode.TIME, reason);
    return null;
  }
}
