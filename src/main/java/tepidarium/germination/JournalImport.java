package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Imports species profiles, seed lots and journal entries exported by another installation. Each
 * import adds all of its records or none. Records that already exist are skipped.
 */
public final class JournalImport {
  private final SeedRecord record;
  private final SpeciesList species;

  public JournalImport(SeedJournal journal) {
    this.record = journal.record();
    this.species = journal.species();
  }

  /**
   * Imports species profiles; they replace profiles with the same id.
   *
   * @return number of new or changed profiles
   */
  public int species(List<Species> imported) {
    synchronized (record) {
      List<Species> added = imported.stream().filter(s -> !species.all().contains(s)).toList();
      species.put(added);
      return added.size();
    }
  }

  /**
   * Imports seed lots.
   *
   * @return how many were new
   * @throws RefusedRow if one cannot be added, with its index
   */
  public int lots(List<Lot> imported, Instant now) {
    synchronized (record) {
      Map<Long, Lot> lotsById = new HashMap<>(record.snapshot().lots());
      List<Lot> added = new ArrayList<>();
      for (int i = 0; i < imported.size(); i++) {
        Lot lot = imported.get(i);
        Lot existing = lotsById.put(lot.id(), lot);
        if (existing == null) {
          added.add(lot);
          RefusedRow.checking(i, () -> record.check(lot, now));
        } else if (!existing.equals(lot)) {
          throw new RefusedRow(
              i,
              new InvalidInput(
                  "there is already another seed lot " + lot.id() + " here",
                  InputRule.DIFFERS.with(lot.id())));
        }
      }
      record.putLots(added);
      return added.size();
    }
  }

  /**
   * Imports journal entries. An entry that another one corrects or withdraws needs no container:
   * the container may have been removed since.
   *
   * @return how many were new
   * @throws RefusedRow if one cannot be added, with its index
   * @throws Contradiction if lots and sowings would contradict each other
   */
  public int entries(List<Entry> imported, Instant now) {
    synchronized (record) {
      Set<UUID> replaced =
          imported.stream()
              .map(Entry::corrects)
              .filter(Objects::nonNull)
              .collect(Collectors.toSet());
      List<Entry> added = new ArrayList<>();
      for (int i = 0; i < imported.size(); i++) {
        Entry entry = imported.get(i);
        Entry existing = record.snapshot().entries().get(entry.id());
        if (existing == null) {
          added.add(entry);
          RefusedRow.checking(
              i,
              () -> {
                if (replaced.contains(entry.id())) {
                  SeedRecord.checkTime(entry, now);
                } else {
                  record.check(entry, now);
                }
              });
        } else if (!existing.withoutRequest().equals(entry.withoutRequest())) {
          throw new RefusedRow(
              i,
              new InvalidInput(
                  "there is an entry " + entry.id() + " with different contents here",
                  InputRule.DIFFERS.with(entry.id().toString())));
        }
      }
      try {
        record.append(added);
      } catch (ContradictedEntry e) {
        int index = Math.max(0, imported.indexOf(e.entry()));
        throw new RefusedRow(index, new InvalidInput(String.valueOf(e.getMessage()), e.broken()));
      }
      return added.size();
    }
  }
}
