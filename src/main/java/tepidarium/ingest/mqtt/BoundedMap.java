package tepidarium.ingest.mqtt;

import java.util.LinkedHashMap;
import java.util.Map;

/** A map of limited size; beyond it, the entry that was put first is forgotten. */
final class BoundedMap<K, V> extends LinkedHashMap<K, V> {
  private static final long serialVersionUID = 1;

  private final int most;

  /**
   * An empty map.
   *
   * @param most it holds up to so many entries
   */
  BoundedMap(int most) {
    this.most = most;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
    return size() > most;
  }
}
