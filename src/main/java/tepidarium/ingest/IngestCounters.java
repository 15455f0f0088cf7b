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
 * Counts received entries by outcome since the start, and writes the reject log. An entry is a
 * reading or a refused line. Each count is kept separately. Waiting entries are counted when they
 * arrive and when they leave, not from the result of the store. A lost entry therefore makes {@link
 * IntakeCounts#unaccounted} differ from 0. Thread-safe.
 */
public final class IngestCounters {
  /** Maximum number of lines per sensor and batch; the log keeps 1,000 lines in total. */
  private static final int MAX_LINES = 20;

  private final RejectLog rejectLog;
  private final String rootTopic;
  private final Clock clock;
  private long received;
  private long stored;
  private long repeated;
  private long rejected;
  private long waiting;

  public IngestCounters(RejectLog rejectLog, String rootTopic, Clock clock) {
    this.rejectLog = rejectLog;
    this.rootTopic = rootTopic;
    this.clock = clock;
  }

  /** Counts entries that arrived, or that waited on disk at the start. */
  public synchronized void received(long entries) {
    received += entries;
    waiting += entries;
  }

  /**
   * Counts readings that no longer wait, and their outcome.
   *
   * @param readings number of readings that were given to the store
   * @param result the outcome that the store reported
   */
  public synchronized void settled(int readings, WriteResult result) {
    waiting += result.queued() - readings;
    stored += result.stored();
    repeated += result.repeated();
    rejected += result.refused().size();
  }

  /** Counts refused lines, which no longer wait. */
  synchronized void rejected(int lines) {
    waiting -= lines;
    rejected += lines;
  }

  public synchronized IntakeCounts counts() {
    return new IntakeCounts(received, stored, repeated, rejected, waiting);
  }

  /**
   * Writes lines that could not be decoded and readings that the store refused to the reject log.
   *
   * @throws tepidarium.series.StoreException when the log cannot take it now
   */
  public void log(List<Reject> rejects, List<RefusedReading> refused) {
    if (!rejects.isEmpty() || !refused.isEmpty()) {
      rejectLog.add(Stream.concat(rejects.stream(), lines(refused).stream()).toList());
    }
  }

  /** One line per refused reading; beyond 20 of one sensor, one more line counts the others. */
  private List<Reject> lines(List<RefusedReading> refused) {
    Map<SensorId, Integer> counts = new LinkedHashMap<>();
    List<Reject> lines = new ArrayList<>();
    for (RefusedReading reading : refused) {
      if (counts.merge(reading.reading().sensor(), 1, Integer::sum) <= MAX_LINES) {
        lines.add(line(reading));
      }
    }
    counts.forEach(
        (sensor, count) -> {
          if (count > MAX_LINES) {
            String reason = "and " + (count - MAX_LINES) + " more readings of this sensor";
            lines.add(
                Reject.of(clock.instant(), rootTopic + '/' + sensor, RejectCode.STORE, reason, ""));
          }
        });
    return lines;
  }

  /** The original message is no longer known, so the line has the sensor's topic and values. */
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
