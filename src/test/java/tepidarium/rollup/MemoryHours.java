package tepidarium.rollup;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;
import tepidarium.container.ContainerId;

/** In-memory store for the hours of containers, for fast tests. */
final class MemoryHours implements RollupStore {
  private record Kept(long fingerprint, RollupRow row) {}

  private final Map<ContainerId, TreeMap<Long, Kept>> hours = new HashMap<>();

  private long rawFromMs;

  private TreeMap<Long, Kept> of(ContainerId container) {
    return hours.computeIfAbsent(container, any -> new TreeMap<>());
  }

  @Override
  public List<RollupRow> read(ContainerId container, long fingerprint, long fromMs, long toMs) {
    return of(container).subMap(fromMs, toMs).values().stream()
        .filter(kept -> kept.fingerprint() == fingerprint || kept.row().fromMs() < rawFromMs)
        .map(Kept::row)
        .toList();
  }

  @Override
  public void put(ContainerId container, long fingerprint, List<RollupRow> rows) {
    rows.forEach(row -> of(container).put(row.fromMs(), new Kept(fingerprint, row)));
  }

  @Override
  public void delete(ContainerId container, long fromMs, long toMs) {
    of(container).subMap(fromMs, toMs).clear();
  }

  @Override
  public long storedUntilMs(ContainerId container) {
    TreeMap<Long, Kept> own = of(container);
    return own.isEmpty() ? 0 : own.lastKey() + HourlyRollups.HOUR_MS;
  }

  @Override
  public OptionalLong storedFromMs(ContainerId container) {
    TreeMap<Long, Kept> own = of(container);
    return own.isEmpty() ? OptionalLong.empty() : OptionalLong.of(own.firstKey());
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
    return hours.values().stream().mapToInt(TreeMap::size).sum();
  }
}
