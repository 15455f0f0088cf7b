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
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Limits the number of sensor names. Names are accepted freely until so many are known; beyond
 * that, so many new ones an hour. Known names, and those of sensors that were placed in a
 * container, are always accepted. A sensor with a counter in its name would otherwise fill the
 * memory within days. Safe for use by several threads.
 */
public final class SensorLimit {
  private static final Duration HOUR = Duration.ofHours(1);

  private final int most;
  private final int newPerHour;
  private final Set<SensorId> known = new HashSet<>();
  private Predicate<SensorId> alwaysAccepted = sensor -> false;
  private @Nullable Instant windowStart;
  private int newInWindow;
  private long rejected;
  private @Nullable Instant lastRejectedAt;
  private String lastRejected = "";

  /**
   * A limit.
   *
   * @param most so many names are accepted freely, at least 1
   * @param newPerHour so many more are accepted in each hour, at least 0
   */
  public SensorLimit(int most, int newPerHour) {
    this.most = most;
    this.newPerHour = newPerHour;
  }

  /** Names that are known from before, and a question that finds others to accept always. */
  public synchronized void know(Collection<SensorId> sensors, Predicate<SensorId> always) {
    known.addAll(sensors);
    alwaysAccepted = always;
  }

  /** Why readings of a sensor would be rejected now; null when they would be accepted. */
  public synchronized @Nullable String whyNot(SensorId sensor, Instant now) {
    if (known.contains(sensor) || known.size() < most || alwaysAccepted.test(sensor)) {
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
    return "\"%s\" is a new sensor name, but %,d names are known and %,d new ones came this hour: %s"
        .formatted(
            sensor.name(),
            known.size(),
            newInWindow,
            "keep counters and times out of names, place the sensor in a container, or raise"
                + " maxSensors or newSensorsPerHour in the settings");
  }

  /**
   * The same with the readings of sensors beyond the limit rejected. Each of them is counted; each
   * sensor gets one reject.
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
          newInWindow += known.size() < most ? 0 : 1;
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
    return refused.isEmpty() ? decoded : new Decoded(accepted, rejects, count, decoded.press());
  }

  private static boolean isRecent(@Nullable Instant at, Instant now) {
    return at != null && Duration.between(at, now).abs().compareTo(HOUR) < 0;
  }

  /** Why readings were rejected within the last hour; null when none were. */
  public synchronized @Nullable String trouble(Instant now) {
    return isRecent(lastRejectedAt, now)
        ? "%,d messages with new sensor names were rejected, the last one of \"%s\"; %s. %s"
            .formatted(
                rejected,
                lastRejected,
                summary(),
                "Keep counters and times out of sensor names, or raise maxSensors ("
                    + most
                    + ") or newSensorsPerHour ("
                    + newPerHour
                    + ')')
        : null;
  }

  /** How many names are known, in words. */
  public synchronized String summary() {
    return "%,d sensor names are known".formatted(known.size());
  }
}
