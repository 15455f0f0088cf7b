package tepidarium.germination;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import tepidarium.container.ContainerId;
import tepidarium.reading.InputRule;

/** Lists, adds, changes and removes species profiles. Thread-safe; changes run one at a time. */
public final class SpeciesList {
  private final GerminationStore store;
  private volatile List<Species> all;

  SpeciesList(GerminationStore store) {
    this.store = store;
    this.all = store.species();
  }

  /** All profiles, sorted by name. */
  public List<Species> all() {
    return all;
  }

  /**
   * The profile with an id.
   *
   * @throws NoSuchElementException if there is none
   */
  public Species existing(String id) {
    return all.stream()
        .filter(species -> species.id().equals(id))
        .findFirst()
        .orElseThrow(() -> new NoSuchElementException("there is no species \"" + id + '"'));
  }

  /** Adds a profile; its id is made from its name. */
  public synchronized Species add(String name, Map<Trait, Figure> figures) {
    Set<ContainerId> taken = new HashSet<>();
    all.forEach(species -> taken.add(new ContainerId(species.id())));
    Species added = new Species(ContainerId.forName(name, taken).value(), name, figures);
    put(List.of(added));
    return added;
  }

  /** Replaces a profile. */
  public synchronized Species change(String id, String name, Map<Trait, Figure> figures) {
    existing(id);
    Species changed = new Species(id, name, figures);
    put(List.of(changed));
    return changed;
  }

  synchronized void reload() {
    all = store.species();
  }

  /** Adds or replaces profiles, all or none. */
  synchronized void put(List<Species> species) {
    store.putSpecies(species);
    all = store.species();
  }

  /**
   * Removes a profile.
   *
   * @param lots all seed lots
   * @throws Contradiction if one of them is of this species
   */
  synchronized void remove(String id, List<Lot> lots) {
    existing(id);
    for (Lot lot : lots) {
      if (lot.details().species().equals(id)) {
        throw new Contradiction(
            "seed lot " + lot.id() + " is of this species",
            InputRule.SPECIES_OF_LOT.with(lot.id()));
      }
    }
    store.removeSpecies(id);
    all = store.species();
  }
}
