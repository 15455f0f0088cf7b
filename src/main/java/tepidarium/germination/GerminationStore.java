package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * Stores species profiles, seed lots and the journal. Each method that writes is one transaction;
 * the data are on disk when it returns. If the store fails, a method throws an unchecked exception
 * with the cause.
 */
public interface GerminationStore {
  /** All species profiles, sorted by name. */
  List<Species> species();

  /** Adds profiles; a profile with an existing id replaces the old one. */
  void putSpecies(List<Species> species);

  void removeSpecies(String id);

  /** All lots, sorted by number. */
  List<Lot> lots();

  /** Adds lots; a lot with an existing number replaces the old one. */
  void putLots(List<Lot> lots);

  /** All journal entries in the order in which they were recorded. */
  List<Entry> entries();

  /** Appends entries to the journal, all or none. */
  void append(List<Entry> entries);

  /** Stores the photo of an entry; replaces an existing one. */
  void putPhoto(UUID entry, Photo photo);

  Optional<Photo> photo(UUID entry);

  /** The ids of the entries that have a photo. */
  List<UUID> photographed();
}
