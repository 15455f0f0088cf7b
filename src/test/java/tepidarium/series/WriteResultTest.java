package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

class WriteResultTest {
  private static Reading reading() {
    Instant at = Instant.parse("2026-03-01T00:00:00Z");
    return new Reading(new SensorId("a"), at, Map.of(Quantity.TEMPERATURE, 30.0), null);
  }

  @Test
  void onlyRefusedReadingsAreLeftOutOfTheAcceptedOnes() {
    List<Reading> batch = List.of(reading(), reading());
    RefusedReading refused = new RefusedReading(batch.get(1), "the store rejects it");
    List<Reading> accepted = new WriteResult(1, 0, List.of(refused)).accepted(batch);
    assertEquals(1, accepted.size());
    assertSame(batch.get(0), accepted.get(0));
    assertSame(batch, new WriteResult(2, 0).accepted(batch));
  }
}
