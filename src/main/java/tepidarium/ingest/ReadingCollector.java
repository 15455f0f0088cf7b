package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.Arrival;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Collects the readings and rejects of one message and passes them on in parts of at most 1,000
 * readings. At most 20 rejects are kept; they are passed on with the last part. Used by one thread
 * for one message.
 */
final class ReadingCollector {
  /** Maximum number of rejects of one message, so that a damaged backlog does not fill the log. */
  static final int MAX_REJECTS = 20;

  /** Maximum number of faults of one message. */
  static final int MAX_FAULTS = 1_000;

  /** Maximum number of readings in one part. */
  static final int MAX_PART_READINGS = 1_000;

  private final Message message;
  private final Decoder.Parts parts;
  private final List<Reject> rejects = new ArrayList<>(0);
  private List<Reading> readings = new ArrayList<>(1);
  private final List<ArrivalFault> faults = new ArrayList<>(0);
  private @Nullable ButtonPress press;
  private @Nullable DeviceStatus status;
  private int refused;

  ReadingCollector(Message message, Decoder.Parts parts) {
    this.message = message;
    this.parts = parts;
  }

  Message message() {
    return message;
  }

  /** Adds a reading of the valid values, unless its time was rejected. */
  void add(SensorId sensor, Times.@Nullable Stamp stamp, Values values)
      throws InterruptedException {
    if (stamp == null) {
      return;
    }
    addFaults(sensor, stamp, values);
    if (readings.size() == MAX_PART_READINGS) {
      parts.take(new Decoded(readings, List.of()), false);
      readings = new ArrayList<>(MAX_PART_READINGS);
    }
    Arrival arrival = stamp.fromSensor() ? null : message.delivery().arrival();
    readings.add(values.reading(sensor, stamp.at(), arrival));
  }

  /** Adds the refused values of a reading, and its time if that was refused. */
  void addFaults(SensorId sensor, Times.@Nullable Stamp stamp, Values values) {
    if (stamp == null || faults.size() >= MAX_FAULTS) {
      return;
    }
    Instant refused = stamp.refused();
    if (refused != null) {
      double behindSeconds = Duration.between(refused, message.arrivedAt()).toSeconds();
      faults.add(ArrivalFault.ofClock(sensor, stamp.at(), behindSeconds / 60));
    }
    values
        .outOfRange()
        .forEach(
            (quantity, value) ->
                faults.add(ArrivalFault.ofValue(sensor, quantity, stamp.at(), value)));
  }

  /** Records a button press. */
  void add(@Nullable ButtonPress buttonPress) {
    press = buttonPress;
  }

  /** Records what the sensor reported about itself in one entry of the message. */
  void add(@Nullable DeviceStatus reported) {
    if (reported != null) {
      status = status == null ? reported : status.with(reported);
    }
  }

  /** Rejects the message as a whole. */
  void reject(RejectCode code, String reason) {
    reject(code, reason, () -> Text.beginning(message.payload()));
  }

  /**
   * Rejects one part of the message.
   *
   * @param excerpt text of the part, logged instead of the beginning of the message
   */
  void reject(RejectCode code, String reason, Supplier<String> excerpt) {
    if (++refused <= MAX_REJECTS) {
      add(code, reason, excerpt.get());
    }
  }

  private void add(RejectCode code, String reason, String payload) {
    rejects.add(Reject.of(message.arrivedAt(), message.topic(), code, reason, payload));
  }

  /** Passes on the last part. */
  void finish() throws InterruptedException {
    if (refused > MAX_REJECTS) {
      rejects.remove(MAX_REJECTS - 1);
      int more = refused - rejects.size();
      add(
          RejectCode.OTHER,
          "and " + more + " more rejects of this message",
          Text.beginning(message.payload()));
    }
    parts.take(new Decoded(readings, rejects, refused, press, status, faults), true);
  }
}
