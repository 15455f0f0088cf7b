package tepidarium.rollup;

import java.util.List;
import java.util.OptionalLong;
import java.util.TreeMap;
import tepidarium.container.ContainerId;

/** In-memory store for the hours of one container, for fast tests. */
final class MemoryHours implements RollupStore {
  private record Kept(long fingerprint, RollupRow row) {}

  private final TreeMap<Long, Kept> hours = new TreeMap<>();

  private long rawFromMs;

  @Override
  public List<RollupRow> read(ContainerId container, long fingerprint, long fromMs, long toMs) {
    return hours.subMap(fromMs, toMs).values().stream()
        .filter(kept -> kept.fingerprint() == fingerprint || kept.row().fromMs() < rawFromMs)
        .map(Kept::row)
        .toList();
  }

  @Override
  public void put(ContainerId container, long fingerprint, List<RollupRow> rows) {
    rows.forEach(row -> hours.put(row.fromMs(), new Kept(fingerprint, row)));
  }

  @Override
  public void delete(ContainerId container, long fromMs, long toMs) {
    hours.subMap(fromMs, toMs).clear();
  }

  @Override
  public long storedUntilMs(ContainerId container) {
    return hours.isEmpty() ? 0 : hours.lastKey() + HourlyRollups.HOUR_MS;
  }

  @Override
  public OptionalLong storedFromMs(ContainerId container) {
    return hours.isEmpty() ? OptionalLong.empty() : OptionalLong.of(hours.firstKey());
  }

  @Override
  public long rawFromMs() {
    return rawFromMs;
  }

  @Override
  public void rawFromMs(long instantMs) {
    rawFromMs = instantMs;
  }

  int size() {
    return hours.size();
  }
}
