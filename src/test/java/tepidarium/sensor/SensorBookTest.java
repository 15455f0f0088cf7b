package tepidarium.sensor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

class SensorBookTest {
  private static final Instant START = Instant.parse("2026-03-20T12:00:00Z");
  private static final SensorId SENSOR = new SensorId("probe");

  private final Memory store = new Memory();
  private final SensorBook book = new SensorBook(store);

  private static final class Memory implements SensorStore {
    private final Map<SensorId, SensorDetails> details = new HashMap<>();
    private final Map<SensorId, DeviceStatus> statuses = new HashMap<>();
    private final List<Integer> writes = new ArrayList<>();
    private boolean broken;

    @Override
    public Map<SensorId, SensorDetails> details() {
      return Map.copyOf(details);
    }

    @Override
    public void put(SensorId sensor, SensorDetails changed) {
      details.put(sensor, changed);
    }

    @Override
    public Map<SensorId, DeviceStatus> statuses() {
      return Map.copyOf(statuses);
    }

    @Override
    public void putStatuses(Collection<DeviceStatus> changed) {
      if (broken) {
        throw new IllegalStateException("the disk is full");
      }
      writes.add(changed.size());
      changed.forEach(status -> statuses.put(status.sensor(), status));
    }
  }

  private static DeviceStatus status(int seconds, int rssiDbm) {
    return new DeviceStatus(SENSOR, START.plusSeconds(seconds), rssiDbm, null);
  }

  private void reported(int seconds, int rssiDbm) {
    book.reported(List.of(status(seconds, rssiDbm)), START.plusSeconds(seconds));
  }

  @Test
  void detailsAreStoredAtOnceAndBlankTextsRemoved() {
    book.change(SENSOR, old -> new SensorDetails(" Lid ", " ", 2.1, null));
    assertEquals(new SensorDetails("Lid", null, 2.1, null), store.details.get(SENSOR));
    book.change(SENSOR, details -> details.retired(START));
    assertEquals(new SensorDetails("Lid", null, 2.1, START), new SensorBook(store).details(SENSOR));
    assertEquals(SensorDetails.NONE, book.details(new SensorId("other")));
    assertThrows(InvalidInput.class, () -> new SensorDetails("x".repeat(61), null, null, null));
    assertThrows(InvalidInput.class, () -> new SensorDetails(null, null, 0.4, null));
  }

  @Test
  void statusesAreStoredAtMostOnceAMinuteAndAtTheStop() {
    for (int second = 0; second < 120; second++) {
      reported(second, -60 - second % 5);
    }
    assertEquals(List.of(1, 1), store.writes);
    assertEquals(status(119, -64), book.status(SENSOR));
    assertEquals(status(60, -60), store.statuses.get(SENSOR));
    book.close();
    assertEquals(status(119, -64), new SensorBook(store).status(SENSOR));
    book.close();
    assertEquals(3, store.writes.size());
  }

  @Test
  void statusesThatCouldNotBeStoredAreStoredLater() {
    store.broken = true;
    assertThrows(IllegalStateException.class, () -> reported(0, -60));
    reported(1, -61);
    store.broken = false;
    reported(61, -62);
    assertEquals(status(61, -62), store.statuses.get(SENSOR));
  }

  @Test
  void theNewestOfEachValueIsKept() {
    DeviceStatus booted = new DeviceStatus(SENSOR, START, null, "1.4");
    assertNull(book.status(SENSOR));
    book.reported(List.of(status(60, -61), booted, status(30, -90)), START);
    assertEquals(new DeviceStatus(SENSOR, START.plusSeconds(60), -61, "1.4"), book.status(SENSOR));
  }
}
