package tepidarium.ingest;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Arrival;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Collects the readings and rejects of one message and hands them on in parts. Rejects are bounded
 * and come with the last part. Used by one thread for one message.
 */
final class Outcome {
  /** The most rejects of one message; a spoilt backlog must not flood the log. */
  static final int MOST_REJECTS = 20;

  /** The most readings in one part. */
  static final int PART = 1_000;

  private final Message message;
  private final Decoder.Parts parts;
  private final List<Reject> rejects = new ArrayList<>(0);
  private List<Reading> readings = new ArrayList<>(1);
  private @Nullable ButtonPress press;
  private int refused;

  Outcome(Message message, Decoder.Parts parts) {
    this.message = message;
    this.parts = parts;
  }

  Message message() {
    return message;
  }

  /** Keeps the good values as a reading, unless its time was rejected. */
  void keep(SensorId sensor, Times.@Nullable Stamp stamp, Values values)
      throws InterruptedException {
    if (stamp == null) {
      return;
    }
    if (readings.size() == PART) {
      parts.take(new Decoded(readings, List.of()), false);
      readings = new ArrayList<>(PART);
    }
    Arrival arrival = stamp.fromSensor() ? null : message.delivery().arrival();
    readings.add(values.reading(sensor, stamp.at(), arrival));
  }

  /** Keeps that a button was pressed. */
  void keep(@Nullable ButtonPress pressed) {
    press = pressed;
  }

  /** Rejects the message, or something about it as a whole. */
  void reject(RejectCode code, String reason) {
    reject(code, reason, () -> Text.beginning(message.payload()));
  }

  /**
   * Rejects one part of the message.
   *
   * @param excerpt the part, shown instead of the beginning of the whole
   */
  void reject(RejectCode code, String reason, Supplier<String> excerpt) {
    if (++refused <= MOST_REJECTS) {
      add(code, reason, excerpt.get());
    }
  }

  private void add(RejectCode code, String reason, String payload) {
    rejects.add(Reject.of(message.arrivedAt(), message.topic(), code, reason, payload));
  }

  /** Hands on the last part. */
  void finish() throws InterruptedException {
    if (refused > MOST_REJECTS) {
      rejects.remove(MOST_REJECTS - 1);
      int more = refused - rejects.size();
      add(
          RejectCode.OTHER,
          "and " + more + " more of this message",
          Text.beginning(message.payload()));
    }
    parts.take(new Decoded(readings, rejects, refused, press), true);
  }
}
