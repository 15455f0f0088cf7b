package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.series.RefusedReading;

class IngestCountersTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");

  private final List<Reject> logged = new ArrayList<>();
  private final RejectLog log =
      new RejectLog() {
        @Override
        public void add(List<Reject> lines) {
          logged.addAll(lines);
        }

        @Override
        public List<Line> newest(int most) {
          return List.of();
        }
      };
  private final IngestCounters counters =
      new IngestCounters(log, "tepidarium", Clock.fixed(NOW, ZoneOffset.UTC));

  private static RefusedReading refused(String sensor) {
    Reading reading = Readings.ofAir(new SensorId(sensor), NOW, 30.0, null, null, null);
    return new RefusedReading(reading, "its clock stands still");
  }

  @Test
  void rejectsOfOneSensorDoNotRemoveThoseOfOthersFromTheLog() {
    List<RefusedReading> refused = new ArrayList<>();
    IntStream.range(0, 5_000).forEach(i -> refused.add(refused("stuck")));
    refused.add(refused("other"));
    counters.log(List.of(), refused);

    assertEquals(22, logged.size());
    assertEquals("tepidarium/other", logged.get(20).topic());
    assertEquals("and 4980 more readings of this sensor", logged.get(21).reason());
  }
}
