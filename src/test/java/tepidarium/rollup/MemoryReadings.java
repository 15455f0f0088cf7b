package tepidarium.rollup;

import java.time.Instant;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.SensorSummary;
import tepidarium.series.UncertainReadings;
import tepidarium.series.WriteResult;

/** In-memory store for readings, for fast tests. */
public final class MemoryReadings implements ReadingSink, ReadingSource {
  private final Map<SensorId, TreeMap<Long, Reading>> readings = new HashMap<>();
  private int reads;
  private Runnable afterNextRead = () -> {};

  @Override
  public WriteResult write(List<Reading> batch) {
    int stored = 0;
    for (Reading reading : batch) {
      Reading old = of(reading.sensor()).putIfAbsent(reading.at().toEpochMilli(), reading);
      stored += old == null ? 1 : 0;
    }
    return new WriteResult(stored, batch.size() - stored);
  }

  private TreeMap<Long, Reading> of(SensorId sensor) {
    return readings.computeIfAbsent(sensor, any -> new TreeMap<>());
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    reads++;
    Map<Quantity, Samples> samples = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      Samples.Builder builder = new Samples.Builder(16);
      of(sensor)
          .subMap(span.fromMs(), true, span.toMs(), true)
          .forEach(
              (at, reading) -> {
                Double value = reading.value(quantity);
                if (value != null) {
                  builder.add(at, value);
                }
              });
      samples.put(quantity, builder.build());
    }
    Runnable then = afterNextRead;
    afterNextRead = () -> {};
    then.run();
    return samples;
  }

  @Override
  public Map<Quantity, Samples> readUncertain(SensorId sensor, Span span) {
    return Map.of();
  }

  /** Runs the action after the next read has taken its result. */
  public void afterNextRead(Runnable then) {
    afterNextRead = then;
  }

  void deleteBefore(Instant instant) {
    readings.values().forEach(own -> own.headMap(instant.toEpochMilli()).clear());
  }

  public int reads() {
    return reads;
  }

  @Override
  public Optional<Instant> firstAt(SensorId sensor, Span span) {
    return of(sensor).subMap(span.fromMs(), true, span.toMs(), true).keySet().stream()
        .findFirst()
        .map(Instant::ofEpochMilli);
  }

  @Override
  public Map<SensorId, SensorSummary> summaries() {
    Map<SensorId, SensorSummary> summaries = new HashMap<>();
    readings.forEach(
        (sensor, own) ->
            own.values()
                .forEach(
                    reading ->
                        summaries.merge(sensor, SensorSummary.of(reading), SensorSummary::with)));
    return summaries;
  }

  @Override
  public Map<SensorId, UncertainReadings> uncertain() {
    return Map.of();
  }
}
