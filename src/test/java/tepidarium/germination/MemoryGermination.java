package tepidarium.germination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** A store that keeps nothing beyond the test. */
final class MemoryGermination implements GerminationStore {
  private final Map<String, Species> species = new HashMap<>();
  private final Map<Long, Lot> lots = new HashMap<>();
  private final List<Entry> entries = new ArrayList<>();
  private final Map<UUID, Photo> photos = new HashMap<>();

  @Override
  public List<Species> species() {
    return species.values().stream().sorted(Comparator.comparing(Species::name)).toList();
  }

  @Override
  public void putSpecies(List<Species> all) {
    all.forEach(one -> species.put(one.id(), one));
  }

  @Override
  public void removeSpecies(String id) {
    species.remove(id);
  }

  @Override
  public List<Lot> lots() {
    return lots.values().stream().sorted(Comparator.comparing(Lot::id)).toList();
  }

  @Override
  public void putLots(List<Lot> all) {
    all.forEach(lot -> lots.put(lot.id(), lot));
  }

  @Override
  public List<Entry> entries() {
    return List.copyOf(entries);
  }

  @Override
  public void append(List<Entry> more) {
    entries.addAll(more);
  }

  @Override
  public void putPhoto(UUID entry, Photo photo) {
    photos.put(entry, photo);
  }

  @Override
  public Optional<Photo> photo(UUID entry) {
    return Optional.ofNullable(photos.get(entry));
  }

  @Override
  public List<UUID> photographed() {
    return List.copyOf(photos.keySet());
  }
}
