package tepidarium.ledger;

import java.util.List;
import java.util.TreeMap;
import tepidarium.container.ContainerId;

/** Hours of one container in memory, for fast tests; the real store has its own. */
final class MemoryHours implements LedgerStore {
  private record Kept(long basis, LedgerRow row) {}

  private final TreeMap<Long, Kept> hours = new TreeMap<>();

  @Override
  public List<LedgerRow> read(ContainerId container, long basis, long fromMs, long toMs) {
    return hours.subMap(fromMs, toMs).values().stream()
        .filter(kept -> kept.basis() == basis)
        .map(Kept::row)
        .toList();
  }

  @Override
  public void put(ContainerId container, long basis, List<LedgerRow> rows) {
    rows.forEach(row -> hours.put(row.fromMs(), new Kept(basis, row)));
  }

  @Override
  public void forget(ContainerId container, long fromMs, long toMs) {
    hours.subMap(fromMs, toMs).clear();
  }

  @Override
  public long keptUntilMs(ContainerId container) {
    return hours.isEmpty() ? 0 : hours.lastKey() + Ledger.HOUR_MS;
  }

  int size() {
    return hours.size();
  }
}
