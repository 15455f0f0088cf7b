package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Holds the journals of all sowings. Queries use a snapshot in memory. A new entry is written to
 * the store before it enters the snapshot. An entry that contradicts other entries is rejected.
 * Thread-safe; changes run one at a time.
 */
public final class SeedJournal {
  private final GerminationStore store;
  private final Register register;
  private final SpeciesList species;
  private final SeedRecord record;
  private final LotBook lots;

  public SeedJournal(GerminationStore store, Register register) {
    this.store = store;
    this.register = register;
    this.species = new SpeciesList(store);
    this.record = new SeedRecord(store, register, species);
    this.lots = new LotBook(record);
  }

  public SpeciesList species() {
    return species;
  }

  public LotBook lots() {
    return lots;
  }

  /**
   * Runs work that writes to the stores directly, then reads containers, species, lots and journals
   * again. No other change runs meanwhile. If the work throws, nothing is read.
   */
  public void reloadAfter(Runnable work) {
    synchronized (record) {
      register.reloadAfter(work);
      species.reload();
      record.reload();
    }
  }

  SeedRecord record() {
    return record;
  }

  /** All sowings that were not withdrawn, by number. */
  public List<Sowing> sowings() {
    return record.snapshot().sowings().values().stream().filter(s -> s.timeline() != null).toList();
  }

  public Optional<Sowing> sowing(long id) {
    return Optional.ofNullable(record.snapshot().sowings().get(id));
  }

  /** All entries: by sowing, and within a sowing in the order in which they were recorded. */
  public List<Entry> entries() {
    return List.copyOf(record.snapshot().entries().values());
  }

  public Optional<Entry> entry(UUID id) {
    return Optional.ofNullable(record.snapshot().entries().get(id));
  }

  /**
   * Sows seeds of a lot. Each portion becomes a seed group.
   *
   * @throws Contradiction if the journal contradicts the sowing
   */
  public Entry sow(long lot, @Nullable String name, List<Portion> portions, Note note) {
    return addIdempotent(
        note,
        () -> {
          long id = record.snapshot().nextSowing();
          List<Act.Part> parts = new ArrayList<>();
          for (Portion portion : portions) {
            GroupId group = new GroupId(id, parts.size() + 1);
            parts.add(new Act.Part(group, portion.container(), portion.seeds()));
          }
          return entry(id, new Act.Sown(lot, name, parts), note, null, null);
        });
  }

  /** Moves a group, or a part of it, to a container. */
  public Entry move(GroupId group, MoveRequest request, Note note) {
    return addIdempotent(
        note,
        () -> {
          Act act = request.of(group, existing(group), at(note));
          return entry(group.sowing(), act, note, null, null);
        });
  }

  /** Records a check, a count of seedlings or the name of a group. */
  public Entry add(Act act, Note note) {
    return addIdempotent(
        note,
        () -> {
          GroupId group = act.group();
          if (group == null) {
            throw new InvalidInput(act.kind() + " needs a group");
          }
          existing(group);
          return entry(group.sowing(), act, note, null, null);
        });
  }

  /**
   * Names a sowing.
   *
   * @throws NoSuchElementException if there is no sowing with that number
   */
  public Entry name(long sowing, Act.Named act, Note note) {
    return addIdempotent(
        note,
        () -> {
          if (sowing(sowing).map(Sowing::timeline).isEmpty()) {
            throw new NoSuchElementException("there is no sowing " + sowing);
          }
          return entry(sowing, act, note, null, null);
        });
  }

  private Sowing existing(GroupId group) {
    Sowing sowing = record.snapshot().sowings().get(group.sowing());
    boolean known =
        sowing != null && sowing.timeline() != null && sowing.timeline().group(group) != null;
    if (sowing == null || !known) {
      throw new NoSuchElementException("there is no seed group " + group);
    }
    return sowing;
  }

  /**
   * Corrects an entry. The old entry stays in the journal, but only the new one is valid.
   *
   * @param corrected makes the corrected act from the old entry
   * @throws NoSuchElementException if there is no such entry
   * @throws Contradiction if the correction makes another entry impossible
   */
  public Entry correct(UUID id, Function<Entry, Act> corrected, String reason, Note note) {
    return addIdempotent(
        note,
        () -> {
          Entry old = existing(id);
          Note then =
              note.at() != null
                  ? note
                  : new Note(
                      note.id(), note.request(), old.at(), note.by(), note.remark(), note.now());
          return entry(old.sowing(), corrected.apply(old), then, id, reason);
        });
  }

  /** Corrects a move. A part keeps its group number, which later entries use. */
  public Entry correctMove(UUID id, MoveRequest request, String reason, Note note) {
    return correct(
        id,
        old -> {
          if (!(old.act() instanceof Act.Moved earlier)) {
            throw new InvalidInput("that entry is not a move but " + old.act().kind());
          }
          return request.inPlaceOf(earlier, sowingOf(old));
        },
        reason,
        note);
  }

  private Sowing sowingOf(Entry entry) {
    return sowing(entry.sowing())
        .orElseThrow(() -> new NoSuchElementException("there is no sowing " + entry.sowing()));
  }

  /** Corrects a sowing. The portions keep their group numbers, in order. */
  public Entry correctSowing(
      UUID id, long lot, @Nullable String name, List<Portion> portions, String reason, Note note) {
    return correct(
        id,
        old -> {
          if (!(old.act() instanceof Act.Sown earlier)) {
            throw new InvalidInput("that entry is not a sowing but " + old.act().kind());
          }
          Sowing sowing = sowingOf(old);
          List<Act.Part> parts = new ArrayList<>();
          for (Portion portion : portions) {
            int index = parts.size();
            GroupId group =
                index < earlier.parts().size()
                    ? earlier.parts().get(index).group()
                    : sowing.unusedGroup(1 + index - earlier.parts().size());
            parts.add(new Act.Part(group, portion.container(), portion.seeds()));
          }
          return new Act.Sown(lot, name, parts);
        },
        reason,
        note);
  }

  /** Withdraws an entry. It stays in the journal, but is no longer valid. */
  public Entry withdraw(UUID id, String reason, Note note) {
    return correct(id, old -> new Act.Withdrawn(), reason, note);
  }

  private Entry existing(UUID id) {
    return entry(id).orElseThrow(() -> new NoSuchElementException("there is no entry " + id));
  }

  private static Instant at(Note note) {
    return note.at() == null ? note.now() : note.at();
  }

  private static Entry entry(
      long sowing, Act act, Note note, @Nullable UUID corrects, @Nullable String reason) {
    UUID id = note.id() == null ? UUID.randomUUID() : note.id();
    return new Entry(
        id,
        sowing,
        at(note),
        act,
        note.now(),
        note.by(),
        note.remark(),
        corrects,
        reason,
        note.request());
  }

  /**
   * Adds an entry, idempotent by its id: a repeated request returns the entry added by the first
   * one.
   */
  private Entry addIdempotent(Note note, Supplier<Entry> maker) {
    synchronized (record) {
      Entry known = note.id() == null ? null : record.snapshot().entries().get(note.id());
      if (known != null) {
        if (known.request() != null && !known.request().equals(note.request())) {
          throw new Contradiction(
              "entry " + note.id() + " was already recorded with different contents");
        }
        return known;
      }
      Entry entry = maker.get();
      record.check(entry, note.now());
      try {
        record.append(List.of(entry));
      } catch (ContradictedEntry e) {
        throw e.because(entry);
      }
      return entry;
    }
  }

  /**
   * Removes a species profile that has no seed lot.
   *
   * @throws NoSuchElementException if there is no profile with that id
   * @throws Contradiction if there is a seed lot of this species
   */
  public void removeSpecies(String id) {
    synchronized (record) {
      species.remove(id, lots.all());
    }
  }

  /**
   * Removes a container that never held seeds.
   *
   * @throws Contradiction if it holds or held seeds
   */
  public boolean removeContainer(ContainerId id) {
    synchronized (record) {
      for (Sowing sowing : sowings()) {
        SowingTimeline timeline = sowing.timeline();
        if (timeline != null && timeline.passedThrough(id)) {
          boolean inside =
              timeline.groups().stream().anyMatch(g -> g.living() > 0 && g.container().equals(id));
          throw inside
              ? new Contradiction(
                  "seeds of sowing " + sowing.id() + " lie in it: move them first",
                  InputRule.SEEDS_INSIDE.with(sowing.id()))
              : new Contradiction(
                  "seeds of sowing "
                      + sowing.id()
                      + " were in it, and their heat is calculated from it",
                  InputRule.SEEDS_WERE_INSIDE.with(sowing.id()));
        }
      }
      return register.remove(id);
    }
  }

  /** Stores a photo of an entry. */
  public void putPhoto(UUID id, Photo photo) {
    store.putPhoto(existing(id).id(), photo);
  }

  public Optional<Photo> photo(UUID id) {
    return store.photo(id);
  }

  /** The ids of all entries that have a photo. */
  public Set<UUID> photographed() {
    return Set.copyOf(store.photographed());
  }
}
