package tepidarium.ingest;

import java.time.Instant;
import java.util.List;

/** Stores the mapping rules that were saved on a page. */
public interface MappingStore {
  /** A saved rule. */
  record Saved(long id, Instant at, MappingRule rule) {}

  /** All saved rules, the oldest first. */
  List<Saved> all();

  Saved add(MappingRule rule, Instant at);

  /** Removes a rule. Returns whether there was one. */
  boolean remove(long id);
}
