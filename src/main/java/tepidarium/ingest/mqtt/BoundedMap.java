package tepidarium.ingest.mqtt;

import java.util.LinkedHashMap;
import java.util.Map;

/** A map with a maximum size; when it is full, the oldest entry is removed. */
final class BoundedMap<K, V> extends LinkedHashMap<K, V> {
  private static final long serialVersionUID = 1;

  private final int maxEntries;

  /**
   * Creates an empty map.
   *
   * @param maxEntries maximum number of entries
   */
  BoundedMap(int maxEntries) {
    this.maxEntries = maxEntries;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
    return size() > maxEntries;
  }
}
