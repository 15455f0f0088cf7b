package tepidarium.germination;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import tepidarium.reading.InputRule;

/**
 * All seed lots and sowings at one moment. Immutable. A change returns a new snapshot, or throws an
 * exception if lots and sowings would contradict each other.
 *
 * @param lots by number
 * @param sowings by number, including withdrawn ones
 * @param entries by id, in the order of the sowings and their journals
 */
record SeedSnapshot(Map<Long, Lot> lots, Map<Long, Sowing> sowings, Map<UUID, Entry> entries) {

  static SeedSnapshot load(GerminationStore store) {
    return new SeedSnapshot(Map.of(), Map.of(), Map.of()).merged(store.lots(), store.entries());
  }

  /**
   * Adds or replaces lots.
   *
   * @throws Contradiction if a lot has fewer seeds than were sown from it or is younger than a
   *     sowing
   */
  SeedSnapshot withLots(Collection<Lot> changed) {
    SeedSnapshot next = merged(changed, List.of());
    next.checkLots();
    return next;
  }

  /**
   * Adds entries to the ends of their journals.
   *
   * @throws ContradictedEntry if an entry is impossible after those before it
   * @throws Contradiction if a sowing has more seeds than its lot or is older than its lot
   */
  SeedSnapshot withEntries(List<Entry> added) {
    SeedSnapshot next = merged(List.of(), added);
    next.checkLots();
    return next;
  }

  private SeedSnapshot merged(Collection<Lot> changed, List<Entry> added) {
    Map<Long, Lot> allLots = new TreeMap<>(lots);
    changed.forEach(lot -> allLots.put(lot.id(), lot));
    Map<Long, List<Entry>> addedBySowing = new TreeMap<>();
    added.forEach(e -> addedBySowing.computeIfAbsent(e.sowing(), id -> new ArrayList<>()).add(e));
    Map<Long, Sowing> allSowings = new TreeMap<>(sowings);
    addedBySowing.forEach(
        (id, more) -> {
          Sowing old = allSowings.get(id);
          List<Entry> journal = new ArrayList<>(old == null ? List.of() : old.entries());
          journal.addAll(more);
          allSowings.put(id, Sowing.of(id, journal));
        });
    Map<UUID, Entry> byId = new LinkedHashMap<>();
    allSowings.values().forEach(s -> s.entries().forEach(e -> byId.put(e.id(), e)));
    return new SeedSnapshot(allLots, allSowings, byId);
  }

  long nextLot() {
    return next(lots);
  }

  long nextSowing() {
    return next(sowings);
  }

  private static long next(Map<Long, ?> numbered) {
    return numbered.keySet().stream().mapToLong(Long::longValue).max().orElse(0) + 1;
  }

  /** Number of seeds of a lot that were sown. */
  int sown(long lot) {
    return sowings.values().stream()
        .flatMap(sowing -> Optional.ofNullable(sowing.timeline()).stream())
        .filter(timeline -> timeline.sowing().lot() == lot)
        .mapToInt(timeline -> timeline.sowing().seeds())
        .sum();
  }

  private void checkLots() {
    for (Sowing sowing : sowings.values()) {
      SowingTimeline timeline = sowing.timeline();
      if (timeline != null) {
        checkLot(sowing.id(), timeline);
      }
    }
  }

  private void checkLot(long sowing, SowingTimeline timeline) {
    Lot lot = lots.get(timeline.sowing().lot());
    if (lot == null) {
      throw noLot(timeline.sowing().lot());
    }
    LotDetails details = lot.details();
    if (timeline.sownAt().isBefore(details.gatheredAt())) {
      throw new Contradiction(
          "sowing %d at %s would be earlier than the gathering of its lot %d at %s"
              .formatted(sowing, timeline.sownAt(), lot.id(), details.gatheredAt()),
          InputRule.BEFORE_GATHERING.with(
              sowing, timeline.sownAt(), lot.id(), details.gatheredAt()));
    }
    int sown = sown(lot.id());
    if (sown > details.seeds()) {
      throw new Contradiction(
          "lot %d has %d seeds, but %d of them would be sown"
              .formatted(lot.id(), details.seeds(), sown),
          InputRule.LOT_TOO_SMALL.with(lot.id(), details.seeds(), sown));
    }
  }

  static NoSuchElementException noLot(long id) {
    return new NoSuchElementException("there is no seed lot " + id);
  }
}
