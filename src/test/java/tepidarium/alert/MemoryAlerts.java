package tepidarium.alert;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import tepidarium.reading.Span;

/** Alerts in memory, for fast tests; the real store has its own. */
final class MemoryAlerts implements AlertStore {
  private final TreeMap<Long, Alert> alerts = new TreeMap<>();

  @Override
  public void put(Alert alert) {
    alerts.put(alert.id(), alert);
  }

  @Override
  public List<Alert> open() {
    return alerts.values().stream().filter(Alert::open).toList();
  }

  @Override
  public List<Alert> newest(int most) {
    return new ArrayList<>(alerts.descendingMap().values()).stream().limit(most).toList();
  }

  @Override
  public List<Alert> within(Span span) {
    return alerts.values().stream()
        .filter(alert -> alert.raisedAt().isBefore(span.to()))
        .filter(alert -> alert.active() || !alert.returnedAt().isBefore(span.from()))
        .sorted(Comparator.comparing(Alert::raisedAt))
        .toList();
  }

  @Override
  public long lastId() {
    return alerts.isEmpty() ? 0 : alerts.lastKey();
  }
}
