package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/** Collects what one message gives, rejects up to a bound. Used by one thread for one message. */
final class Outcome {
  /** The most rejects of one message; a spoilt backlog must not flood the log. */
  static final int MOST_REJECTS = 20;

  private final Message message;
  private final List<Reading> readings = new ArrayList<>(1);
  private final List<Reject> rejects = new ArrayList<>(0);
  private @Nullable ButtonPress press;
  private int rejected;

  Outcome(Message message) {
    this.message = message;
  }

  Message message() {
    return message;
  }

  /** Keeps the good values as a reading, unless its time was rejected. */
  void keep(SensorId sensor, @Nullable Instant at, Values values) {
    if (at != null) {
      readings.add(values.reading(sensor, at));
    }
  }

  /** Keeps that a button was pressed. */
  void keep(@Nullable ButtonPress pressed) {
    press = pressed;
  }

  /** Rejects the message, or something about it as a whole. */
  void reject(String reason) {
    if (++rejected <= MOST_REJECTS) {
      add(reason, Text.beginning(message.payload()));
    }
  }

  /** Rejects one part of the message, which is shown instead of the beginning of the whole. */
  void reject(String reason, JsonNode part) {
    if (++rejected <= MOST_REJECTS) {
      add(reason, part.toString());
    }
  }

  private void add(String reason, String payload) {
    rejects.add(Reject.of(message.arrivedAt(), message.topic(), reason, payload));
  }

  Decoded decoded() {
    if (rejected > MOST_REJECTS) {
      rejects.remove(MOST_REJECTS - 1);
      int more = rejected - rejects.size();
      add("and " + more + " more of this message", Text.beginning(message.payload()));
    }
    return new Decoded(readings, rejects, press);
  }
}
