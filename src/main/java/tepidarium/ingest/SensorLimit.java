package tepidarium.ingest;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.ArrivalFault;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Limits the number of sensor names. All names are accepted until a first limit is reached; after
 * that, a limited number of new names per hour. Known names and names of placed sensors are always
 * accepted. Without the limit, a sensor with a counter in its name would fill the memory within
 * days. Thread-safe.
 */
public final class SensorLimit {
  private static final Duration HOUR = Duration.ofHours(1);

  private final int freeNames;
  private final int newPerHour;
  private final Set<SensorId> known = new HashSet<>();
  private Predicate<SensorId> alwaysAccepted = sensor -> false;
  private @Nullable Instant windowStart;
  private int newInWindow;
  private long rejected;
  private @Nullable Instant lastRejectedAt;
  private String lastRejected = "";

  /**
   * Creates a limit.
   *
   * @param freeNames number of names accepted without a limit per hour, at least 1
   * @param newPerHour number of further names accepted per hour, at least 0
   */
  public SensorLimit(int freeNames, int newPerHour) {
    this.freeNames = freeNames;
    this.newPerHour = newPerHour;
  }

  /** Adds known names, and sets the condition under which other names are always accepted. */
  public synchronized void know(Collection<SensorId> sensors, Predicate<SensorId> always) {
    known.addAll(sensors);
    alwaysAccepted = always;
  }

  /** Why readings of a sensor would be rejected now; null if they would be accepted. */
  public synchronized @Nullable String whyNot(SensorId sensor, Instant now) {
    if (known.contains(sensor) || known.size() < freeNames || alwaysAccepted.test(sensor)) {
      return null;
    }
    Instant start = windowStart;
    if (start == null || now.isBefore(start) || !now.isBefore(start.plus(HOUR))) {
      windowStart = now;
      newInWindow = 0;
    }
    if (newInWindow < newPerHour) {
      return null;
    }
    rejected = isRecent(lastRejectedAt, now) ? rejected + 1 : 1;
    lastRejectedAt = now;
    lastRejected = sensor.name();
    return "\"%s\" is a new sensor name, but %,d names are known and %,d were new this hour: %s"
        .formatted(
            sensor.name(),
            known.size(),
            newInWindow,
            "remove counters and times from names, place the sensor in a container, or raise"
                + " maxSensors or newSensorsPerHour in the settings");
  }

  /**
   * Returns a copy in which readings of sensors beyond the limit are rejected. Each rejected
   * reading is counted; each sensor gets one reject. Leaves out faults of sensors that are neither
   * known nor placed.
   */
  synchronized Decoded limited(Decoded decoded, Message message) {
    List<Reading> accepted = new ArrayList<>(decoded.readings().size());
    List<Reject> rejects = new ArrayList<>(decoded.rejects());
    Set<SensorId> refused = new HashSet<>();
    int count = decoded.refused();
    for (Reading reading : decoded.readings()) {
      SensorId sensor = reading.sensor();
      if (known.contains(sensor)) {
        accepted.add(reading);
      } else if (refused.contains(sensor)) {
        count++;
      } else {
        String reason = whyNot(sensor, message.arrivedAt());
        if (reason == null) {
          newInWindow += known.size() < freeNames ? 0 : 1;
          known.add(sensor);
          accepted.add(reading);
        } else {
          count++;
          refused.add(sensor);
          rejects.add(
              Reject.of(
                  message.arrivedAt(),
                  message.topic(),
                  RejectCode.SENSOR_LIMIT,
                  reason,
                  Text.beginning(message.payload())));
        }
      }
    }
    List<ArrivalFault> faults =
        decoded.faults().stream()
            .filter(fault -> known.contains(fault.sensor()) || alwaysAccepted.test(fault.sensor()))
            .toList();
    if (refused.isEmpty() && faults.size() == decoded.faults().size()) {
      return decoded;
    }
    DeviceStatus status = decoded.status();
    boolean accept = status != null && !refused.contains(status.sensor());
    return new Decoded(accepted, rejects, count, decoded.press(), accept ? status : null, faults);
  }

  private static boolean isRecent(@Nullable Instant at, Instant now) {
    return at != null && Duration.between(at, now).abs().compareTo(HOUR) < 0;
  }

  /** Why readings were rejected within the last hour; null if none were. */
  public synchronized @Nullable String trouble(Instant now) {
    return isRecent(lastRejectedAt, now)
        ? "%,d messages with new sensor names were rejected, the last one from \"%s\"; %s. %s"
            .formatted(
                rejected,
                lastRejected,
                summary(),
                "Remove counters and times from sensor names, or raise maxSensors ("
                    + freeNames
                    + ") or newSensorsPerHour ("
                    + newPerHour
                    + ')')
        : null;
  }

  /** A sentence with the number of known names. */
  public synchronized String summary() {
    return "%,d sensor names are known".formatted(known.size());
  }
}
