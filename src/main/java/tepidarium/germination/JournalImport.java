package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Imports species profiles, seed lots and journal entries that another installation exported. Each
 * import adds all of its records or none. What is already here is not added again.
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
   * @return how many were new or different
   */
  public int species(List<Species> imported) {
    synchronized (record) {
      List<Species> fresh = imported.stream().filter(s -> !species.all().contains(s)).toList();
      species.put(fresh);
      return fresh.size();
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
      Map<Long, Lot> known = new HashMap<>(record.snapshot().lots());
      List<Lot> fresh = new ArrayList<>();
      for (int i = 0; i < imported.size(); i++) {
        Lot lot = imported.get(i);
        Lot here = known.put(lot.id(), lot);
        if (here == null) {
          fresh.add(lot);
          RefusedRow.checking(i, () -> record.check(lot, now));
        } else if (!here.equals(lot)) {
          throw new RefusedRow(i, "there is another seed lot " + lot.id() + " here already");
        }
      }
      record.putLots(fresh);
      return fresh.size();
    }
  }

  /**
   * Imports journal entries.
   *
   * @return how many were new
   * @throws RefusedRow if one cannot be added, with its index
   * @throws Contradiction if lots and sowings would contradict each other
   */
  public int entries(List<Entry> imported, Instant now) {
    synchronized (record) {
      List<Entry> fresh = new ArrayList<>();
      for (int i = 0; i < imported.size(); i++) {
        Entry entry = imported.get(i);
        Entry here = record.snapshot().entries().get(entry.id());
        if (here == null) {
          fresh.add(entry);
          RefusedRow.checking(i, () -> record.check(entry, now));
        } else if (!here.withoutRequest().equals(entry.withoutRequest())) {
          throw new RefusedRow(i, "there is an entry " + entry.id() + " with other contents here");
        }
      }
      try {
        record.append(fresh);
      } catch (ContradictedEntry e) {
        int index = Math.max(0, imported.indexOf(e.entry()));
        throw new RefusedRow(index, String.valueOf(e.getMessage()));
      }
      return fresh.size();
    }
  }
}
