package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.InvalidInput;

/**
 * Holds lots and journals in memory and writes changes to the store first. Queries use {@link
 * #snapshot} and are thread-safe. A thread that changes the record must hold its monitor from the
 * first check to the last write.
 */
final class SeedRecord {
  /** Entries may be up to 10 min in the future, because the clock of a phone may be ahead. */
  private static final Duration MAX_AHEAD = Duration.ofMinutes(10);

  private final GerminationStore store;
  private final Register register;
  private final SpeciesList species;
  private volatile SeedSnapshot snapshot;

  SeedRecord(GerminationStore store, Register register, SpeciesList species) {
    this.store = store;
    this.register = register;
    this.species = species;
    this.snapshot = SeedSnapshot.load(store);
  }

  SeedSnapshot snapshot() {
    return snapshot;
  }

  void reload() {
    snapshot = SeedSnapshot.load(store);
  }

  void putLots(List<Lot> lots) {
    SeedSnapshot next = snapshot.withLots(lots);
    store.putLots(lots);
    snapshot = next;
  }

  /** Adds all of these entries, or none of them. */
  void append(List<Entry> entries) {
    SeedSnapshot next = snapshot.withEntries(entries);
    store.append(entries);
    snapshot = next;
  }

  /** Checks that a lot is of a known species and was not gathered in the future. */
  void check(Lot lot, Instant now) {
    species.existing(lot.details().species());
    notAhead("gatheredAt", lot.details().gatheredAt(), now);
  }

  /** Checks that an entry does not lie in the future and that its containers exist. */
  void check(Entry entry, Instant now) {
    checkTime(entry, now);
    if (entry.act() instanceof Act.Sown sown) {
      sown.parts().forEach(part -> containerExists(part.container()));
    } else if (entry.act() instanceof Act.Moved moved) {
      containerExists(moved.to());
    }
  }

  /** Checks that an entry does not lie in the future. */
  static void checkTime(Entry entry, Instant now) {
    notAhead("at", entry.at(), now);
  }

  private static void notAhead(String name, Instant at, Instant now) {
    if (at.isAfter(now.plus(MAX_AHEAD))) {
      throw InvalidInput.future(name, now);
    }
  }

  private void containerExists(ContainerId id) {
    if (register.container(id).isEmpty()) {
      throw InvalidInput.notFound("container", id.value());
    }
  }
}
