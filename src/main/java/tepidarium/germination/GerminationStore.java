package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * Keeps species profiles, seed lots and the journal. Each method that writes is one transaction and
 * has reached the disk when it returns. A broken store throws an unchecked exception with its
 * cause.
 */
public interface GerminationStore {
  /** By name. */
  List<Species> species();

  /** Adds these profiles, or replaces those with their ids. */
  void putSpecies(List<Species> species);

  void removeSpecies(String id);

  /** By number. */
  List<Lot> lots();

  /** Adds these lots, or replaces those with their numbers. */
  void putLots(List<Lot> lots);

  /** In the order in which they were written down. */
  List<Entry> entries();

  /** Adds to the end of the journal, all or none. */
  void append(List<Entry> entries);

  /** Keeps the picture of an entry, in place of one that was there. */
  void putPhoto(UUID entry, Photo photo);

  Optional<Photo> photo(UUID entry);

  /** Which entries have a picture. */
  List<UUID> photographed();
}
