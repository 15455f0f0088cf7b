package tepidarium.ingest.mqtt;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.IntSupplier;

/** A map with a maximum size; when it is full, the oldest entry is removed. */
final class BoundedMap<K, V> extends LinkedHashMap<K, V> {
  private static final long serialVersionUID = 1;

  private final transient IntSupplier maxEntries;

  /**
   * Creates an empty map.
   *
   * @param maxEntries maximum number of entries, which may change
   */
  BoundedMap(IntSupplier maxEntries) {
    this.maxEntries = maxEntries;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
    return size() > maxEntries.getAsInt();
  }
}
