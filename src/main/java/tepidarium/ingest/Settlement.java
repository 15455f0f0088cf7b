package tepidarium.ingest;

import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.StringJoiner;
import java.util.stream.Stream;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.RefusedReading;
import tepidarium.series.WriteResult;

/**
 * What became of everything that came in: counts since the start, and lines in the reject log. What
 * has come to no end yet is waiting, in memory or on disk, so the counts always add up. Safe for
 * use by several threads.
 */
public final class Settlement {
  /** More would push the rejects of other sensors out of the log, which keeps 1,000 lines. */
  private static final int MOST_LINES = 20;

  private final RejectLog rejectLog;
  private final String rootTopic;
  private final Clock clock;
  private long received;
  private long stored;
  private long repeated;
  private long rejected;

  public Settlement(RejectLog rejectLog, String rootTopic, Clock clock) {
    this.rejectLog = rejectLog;
    this.rootTopic = rootTopic;
    this.clock = clock;
  }

  /** So many readings and refused lines have come in, or were found waiting at the start. */
  public synchronized void received(long entries) {
    received += entries;
  }

  /** Readings have come to their end. */
  public synchronized void settled(WriteResult result) {
    stored += result.stored();
    repeated += result.repeated();
    rejected += result.refused().size();
  }

  /** Things were refused that were no readings. */
  synchronized void rejected(long things) {
    rejected += things;
  }

  public synchronized IntakeCounts counts() {
    long waiting = received - stored - repeated - rejected;
    return new IntakeCounts(received, stored, repeated, rejected, waiting);
  }

  /**
   * Puts into the reject log what could not be read and what the store will never take.
   *
   * @throws tepidarium.series.StoreException when the log cannot take it now
   */
  public void log(List<Reject> rejects, List<RefusedReading> refused) {
    if (!rejects.isEmpty() || !refused.isEmpty()) {
      rejectLog.add(Stream.concat(rejects.stream(), lines(refused).stream()).toList());
    }
  }

  /** A line for each refused reading; beyond 20 of one sensor, a last line counts the others. */
  private List<Reject> lines(List<RefusedReading> refused) {
    Map<SensorId, Integer> counts = new LinkedHashMap<>();
    List<Reject> lines = new ArrayList<>();
    for (RefusedReading reading : refused) {
      if (counts.merge(reading.reading().sensor(), 1, Integer::sum) <= MOST_LINES) {
        lines.add(line(reading));
      }
    }
    counts.forEach(
        (sensor, count) -> {
          if (count > MOST_LINES) {
            String reason = "and " + (count - MOST_LINES) + " more readings of this sensor";
            lines.add(
                Reject.of(clock.instant(), rootTopic + '/' + sensor, RejectCode.STORE, reason, ""));
          }
        });
    return lines;
  }

  /**
   * The message is gone by then: its topic is the sensor's own, its payload what was read of it.
   */
  private Reject line(RefusedReading refused) {
    Reading reading = refused.reading();
    return Reject.of(
        clock.instant(),
        rootTopic + '/' + reading.sensor(),
        RejectCode.STORE,
        refused.reason(),
        json(reading));
  }

  private static String json(Reading reading) {
    StringJoiner json = new StringJoiner(",", "{", "}");
    for (Quantity quantity : Quantity.values()) {
      Double value = reading.value(quantity);
      if (value != null) {
        json.add(String.format(Locale.ROOT, "\"%s\":%s", quantity.key(), value));
      }
    }
    return json.add("\"at\":\"" + reading.at() + '"').toString();
  }
}
