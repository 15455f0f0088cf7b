package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.InvalidInput;

/**
 * The journals of all sowings, and the lots that they come from. Reading is from a snapshot in
 * memory; changes go to the store first. An entry that would contradict the record, at its own
 * instant or later, is refused. Safe for use by several threads; changes take turns.
 */
public final class SeedJournal {
  /** A phone's clock may be ahead by so much. */
  private static final Duration AHEAD = Duration.ofMinutes(10);

  private record Snapshot(Map<Long, Lot> lots, Map<Long, Sowing> sowings, Map<UUID, Entry> byId) {
    static Snapshot of(Collection<Lot> lots, Map<Long, Sowing> sowings) {
      Map<Long, Lot> lotsById = new TreeMap<>();
      lots.forEach(lot -> lotsById.put(lot.id(), lot));
      Map<UUID, Entry> byId = new LinkedHashMap<>();
      sowings.values().forEach(s -> s.entries().forEach(e -> byId.put(e.id(), e)));
      return new Snapshot(lotsById, sowings, byId);
    }
  }

  private final GerminationStore store;
  private final Register register;
  private final SpeciesList species;
  private volatile Snapshot snapshot;

  public SeedJournal(GerminationStore store, Register register) {
    this.store = store;
    this.register = register;
    this.species = new SpeciesList(store);
    Map<Long, List<Entry>> journals = new TreeMap<>();
    for (Entry entry : store.entries()) {
      journals.computeIfAbsent(entry.sowing(), id -> new ArrayList<>()).add(entry);
    }
    Map<Long, Sowing> sowings = new TreeMap<>();
    journals.forEach((id, entries) -> sowings.put(id, Sowing.of(id, entries)));
    this.snapshot = Snapshot.of(store.lots(), sowings);
  }

  public SpeciesList species() {
    return species;
  }

  /** By number. */
  public List<Lot> lots() {
    return List.copyOf(snapshot.lots().values());
  }

  public Optional<Lot> lot(long id) {
    return Optional.ofNullable(snapshot.lots().get(id));
  }

  /** Those that were not withdrawn, by number. */
  public List<Sowing> sowings() {
    return snapshot.sowings().values().stream().filter(s -> s.course() != null).toList();
  }

  public Optional<Sowing> sowing(long id) {
    return Optional.ofNullable(snapshot.sowings().get(id));
  }

  /** The whole journal, sowing by sowing, each in the order in which it was written down. */
  public List<Entry> entries() {
    return List.copyOf(snapshot.byId().values());
  }

  public Optional<Entry> entry(UUID id) {
    return Optional.ofNullable(snapshot.byId().get(id));
  }

  /** How many seeds of a lot were sown. */
  public int sownOf(long lot) {
    return sownOf(lot, snapshot.sowings());
  }

  private static int sownOf(long lot, Map<Long, Sowing> sowings) {
    return sowings.values().stream()
        .map(Sowing::course)
        .flatMap(course -> Optional.ofNullable(course).stream())
        .filter(course -> course.sowing().lot() == lot)
        .mapToInt(course -> course.sowing().seeds())
        .sum();
  }

  /** Adds a seed lot. */
  public synchronized Lot addLot(LotDetails details, Instant now) {
    long id = snapshot.lots().keySet().stream().mapToLong(Long::longValue).max().orElse(0) + 1;
    return put(new Lot(id, details), now);
  }

  /**
   * Changes a seed lot.
   *
   * @throws NoSuchElementException when there is none with that number
   * @throws Contradiction when its sowings tell otherwise
   */
  public synchronized Lot changeLot(long id, LotDetails details, Instant now) {
    if (!snapshot.lots().containsKey(id)) {
      throw noLot(id);
    }
    return put(new Lot(id, details), now);
  }

  private static NoSuchElementException noLot(long id) {
    return new NoSuchElementException("there is no seed lot " + id);
  }

  private Lot put(Lot lot, Instant now) {
    Map<Long, Lot> lots = new TreeMap<>(snapshot.lots());
    lots.put(lot.id(), lot);
    lotIsPossible(lot, now);
    lotsAgree(lots, snapshot.sowings());
    store.putLots(List.of(lot));
    snapshot = Snapshot.of(lots.values(), snapshot.sowings());
    return lot;
  }

  private static void notAhead(String name, Instant at, Instant now) {
    if (at.isAfter(now.plus(AHEAD))) {
      throw new InvalidInput(name, "must not lie in the future; it is " + now + " now");
    }
  }

  /** Whether lots hold what was sown of them, and were gathered before. */
  private static void lotsAgree(Map<Long, Lot> lots, Map<Long, Sowing> sowings) {
    for (Sowing sowing : sowings.values()) {
      Course course = sowing.course();
      if (course != null) {
        agrees(course, sowing.id(), lots, sowings);
      }
    }
  }

  private static void agrees(
      Course course, long id, Map<Long, Lot> lots, Map<Long, Sowing> sowings) {
    Lot lot = lots.get(course.sowing().lot());
    if (lot == null) {
      throw noLot(course.sowing().lot());
    }
    LotDetails details = lot.details();
    if (course.sownAt().isBefore(details.gatheredAt())) {
      throw new Contradiction(
          "sowing %d at %s would lie before its lot %d was gathered at %s"
              .formatted(id, course.sownAt(), lot.id(), details.gatheredAt()));
    }
    int sown = sownOf(lot.id(), sowings);
    if (sown > details.seeds()) {
      throw new Contradiction(
          "lot %d has %d seeds, but %d of them would be sown"
              .formatted(lot.id(), details.seeds(), sown));
    }
  }

  /** Seeds for one container, as asked for. */
  public record Portion(ContainerId container, int seeds) {}

  /**
   * Sows seeds of a lot: each portion becomes a seed group.
   *
   * @throws Contradiction when the record tells otherwise
   */
  public synchronized Entry sow(
      long lot, @Nullable String name, List<Portion> portions, Note note) {
    return once(
        note,
        () -> {
          long id =
              snapshot.sowings().keySet().stream().mapToLong(Long::longValue).max().orElse(0) + 1;
          List<Act.Part> parts = new ArrayList<>();
          for (Portion portion : portions) {
            parts.add(
                new Act.Part(
                    new GroupId(id, parts.size() + 1), portion.container(), portion.seeds()));
          }
          return entry(id, new Act.Sown(lot, name, parts), note, null, null);
        });
  }

  /** What is asked of a move; see {@link Act.Moved}. */
  public record MoveRequest(
      ContainerId to,
      @Nullable Integer ungerminated,
      @Nullable Integer germinated,
      @Nullable GroupId joinTo) {
    boolean everything() {
      return ungerminated == null && germinated == null;
    }

    boolean means(GroupState there) {
      return there.living() > 0
          && there.ungerminated() == or(ungerminated, 0)
          && there.germinated() == or(germinated, 0);
    }
  }

  /** Moves a group, or a part of it, to a container. */
  public synchronized Entry move(GroupId group, MoveRequest request, Note note) {
    return once(
        note,
        () -> {
          Sowing sowing = existing(group);
          Act act = moved(sowing, group, request, at(note));
          return entry(group.sowing(), act, note, null, null);
        });
  }

  /** A part that is all there is then is the group itself, so that no empty one stays behind. */
  private static Act.Moved moved(Sowing sowing, GroupId group, MoveRequest asked, Instant at) {
    Course course = sowing.course();
    GroupState then = course == null ? null : course.at(at).get(group);
    if (asked.everything() || (then != null && asked.means(then))) {
      return new Act.Moved(group, asked.to(), null, null, null, asked.joinTo());
    }
    GroupId split = asked.joinTo() == null ? sowing.free(1) : null;
    return part(group, asked, split);
  }

  private static Act.Moved part(GroupId group, MoveRequest asked, @Nullable GroupId split) {
    return new Act.Moved(
        group,
        asked.to(),
        or(asked.ungerminated(), 0),
        or(asked.germinated(), 0),
        split,
        asked.joinTo());
  }

  private static int or(@Nullable Integer value, int otherwise) {
    return value == null ? otherwise : value;
  }

  /** Writes down a check or a count of seedlings. */
  public synchronized Entry add(Act act, Note note) {
    return once(
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

  private Sowing existing(GroupId group) {
    Sowing sowing = snapshot.sowings().get(group.sowing());
    boolean known =
        sowing != null && sowing.course() != null && sowing.course().group(group) != null;
    if (sowing == null || !known) {
      throw new NoSuchElementException("there is no seed group " + group);
    }
    return sowing;
  }

  /**
   * Corrects an entry: it stays in the journal, but another one counts in its place.
   *
   * @param corrected makes what really was done from what was written down
   * @throws NoSuchElementException when there is no such entry
   * @throws Contradiction when something that was written down would become impossible
   */
  public synchronized Entry correct(
      UUID id, Function<Entry, Act> corrected, String reason, Note note) {
    return once(
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

  /** The same for a move: a part keeps its group, so that what followed still fits. */
  public synchronized Entry correctMove(UUID id, MoveRequest asked, String reason, Note note) {
    return correct(
        id,
        old -> {
          if (!(old.act() instanceof Act.Moved before)) {
            throw new InvalidInput("that entry is no move but " + old.act().kind());
          }
          GroupId split = asked.joinTo() == null ? before.splitInto() : null;
          if (asked.everything()) {
            return new Act.Moved(before.group(), asked.to(), null, null, split, asked.joinTo());
          }
          boolean needed = split == null && asked.joinTo() == null;
          return part(before.group(), asked, needed ? sowingOf(old).free(1) : split);
        },
        reason,
        note);
  }

  private Sowing sowingOf(Entry entry) {
    return sowing(entry.sowing())
        .orElseThrow(() -> new NoSuchElementException("there is no sowing " + entry.sowing()));
  }

  /** The same for a sowing: portions keep the groups that they had, in order. */
  public synchronized Entry correctSowing(
      UUID id, long lot, @Nullable String name, List<Portion> portions, String reason, Note note) {
    return correct(
        id,
        old -> {
          if (!(old.act() instanceof Act.Sown before)) {
            throw new InvalidInput("that entry is no sowing but " + old.act().kind());
          }
          Sowing sowing = sowingOf(old);
          List<Act.Part> parts = new ArrayList<>();
          for (Portion portion : portions) {
            int index = parts.size();
            GroupId group =
                index < before.parts().size()
                    ? before.parts().get(index).group()
                    : sowing.free(1 + index - before.parts().size());
            parts.add(new Act.Part(group, portion.container(), portion.seeds()));
          }
          return new Act.Sown(lot, name, parts);
        },
        reason,
        note);
  }

  /** Takes an entry back: it stays in the journal, but counts no more. */
  public synchronized Entry withdraw(UUID id, String reason, Note note) {
    return correct(id, old -> new Act.Withdrawn(), reason, note);
  }

  private Entry existing(UUID id) {
    Entry entry = snapshot.byId().get(id);
    if (entry == null) {
      throw new NoSuchElementException("there is no entry " + id);
    }
    return entry;
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

  private interface Maker {
    Entry make();
  }

  /** What was sent again is answered as before, and written down once. */
  private Entry once(Note note, Maker maker) {
    Entry known = note.id() == null ? null : snapshot.byId().get(note.id());
    if (known != null) {
      if (known.request() != null && !known.request().equals(note.request())) {
        throw new Contradiction(
            "entry " + note.id() + " was already written down with other contents");
      }
      return known;
    }
    Entry entry = maker.make();
    notAhead("at", entry.at(), note.now());
    containersExist(entry);
    append(entry);
    return entry;
  }

  private void containersExist(Entry entry) {
    if (entry.act() instanceof Act.Sown sown) {
      sown.parts().forEach(part -> containerExists(part.container()));
    } else if (entry.act() instanceof Act.Moved moved) {
      containerExists(moved.to());
    }
  }

  private void containerExists(ContainerId id) {
    if (register.container(id).isEmpty()) {
      throw new InvalidInput("there is no container \"" + id + '"');
    }
  }

  private void append(Entry entry) {
    try {
      append(List.of(entry));
    } catch (ContradictedEntry e) {
      throw e.because(entry);
    }
  }

  /** Adds entries, all or none, if they agree with each other and with what is there. */
  private void append(List<Entry> entries) {
    Map<Long, List<Entry>> added = new TreeMap<>();
    entries.forEach(e -> added.computeIfAbsent(e.sowing(), id -> new ArrayList<>()).add(e));
    Map<Long, Sowing> sowings = new TreeMap<>(snapshot.sowings());
    added.forEach(
        (id, more) -> {
          Sowing old = sowings.get(id);
          List<Entry> journal = new ArrayList<>(old == null ? List.of() : old.entries());
          journal.addAll(more);
          sowings.put(id, Sowing.of(id, journal));
        });
    lotsAgree(snapshot.lots(), sowings);
    store.append(entries);
    snapshot = Snapshot.of(snapshot.lots().values(), sowings);
  }

  /**
   * Takes over species profiles from another place, all or none; those with the same id give way.
   *
   * @return how many were not here like this already
   */
  public synchronized int takeOverSpecies(List<Species> others) {
    List<Species> fresh = others.stream().filter(s -> !species.all().contains(s)).toList();
    species.put(fresh);
    return fresh.size();
  }

  /**
   * Takes over seed lots from another place, all or none.
   *
   * @throws RefusedRow when one cannot be, with its index
   */
  public synchronized int takeOverLots(List<Lot> others, Instant now) {
    Map<Long, Lot> lots = new TreeMap<>(snapshot.lots());
    List<Lot> fresh = new ArrayList<>();
    for (int i = 0; i < others.size(); i++) {
      Lot lot = others.get(i);
      Lot here = lots.put(lot.id(), lot);
      if (here == null) {
        fresh.add(lot);
        RefusedRow.checking(i, () -> lotIsPossible(lot, now));
      } else if (!here.equals(lot)) {
        throw new RefusedRow(i, "there is another seed lot " + lot.id() + " here already");
      }
    }
    store.putLots(fresh);
    snapshot = Snapshot.of(lots.values(), snapshot.sowings());
    return fresh.size();
  }

  private void lotIsPossible(Lot lot, Instant now) {
    species.existing(lot.details().species());
    notAhead("gatheredAt", lot.details().gatheredAt(), now);
  }

  /**
   * Takes over journal entries from another place, all or none. Those that are here already stay.
   *
   * @throws RefusedRow when one cannot be, with its index
   * @throws Contradiction when lots and sowings do not agree
   */
  public synchronized int takeOverEntries(List<Entry> others, Instant now) {
    List<Entry> fresh = new ArrayList<>();
    for (int i = 0; i < others.size(); i++) {
      Entry entry = others.get(i);
      Entry here = snapshot.byId().get(entry.id());
      if (here == null) {
        fresh.add(entry);
        RefusedRow.checking(
            i,
            () -> {
              notAhead("at", entry.at(), now);
              containersExist(entry);
            });
      } else if (!here.withoutRequest().equals(entry.withoutRequest())) {
        throw new RefusedRow(i, "there is an entry " + entry.id() + " with other contents here");
      }
    }
    try {
      append(fresh);
    } catch (ContradictedEntry e) {
      throw new RefusedRow(Math.max(0, others.indexOf(e.entry())), String.valueOf(e.getMessage()));
    }
    return fresh.size();
  }

  /**
   * Forgets a species profile of which there is no seed lot.
   *
   * @throws NoSuchElementException when there is none with that id
   */
  public synchronized void removeSpecies(String id) {
    species.remove(id, lots());
  }

  /**
   * Forgets a container in which no seeds are or were.
   *
   * @throws Contradiction when a sowing tells of it
   */
  public synchronized boolean removeContainer(ContainerId id) {
    for (Sowing sowing : sowings()) {
      Course course = sowing.course();
      if (course != null && course.passedThrough(id)) {
        boolean inside =
            course.groups().stream().anyMatch(g -> g.living() > 0 && g.container().equals(id));
        throw new Contradiction(
            inside
                ? "seeds of sowing " + sowing.id() + " lie in it: move them first"
                : "seeds of sowing " + sowing.id() + " were in it, and their heat is told from it");
      }
    }
    return register.remove(id);
  }

  /** Keeps a picture of an entry. */
  public void putPhoto(UUID id, Photo photo) {
    store.putPhoto(existing(id).id(), photo);
  }

  public Optional<Photo> photo(UUID id) {
    return store.photo(id);
  }

  /** Which entries have a picture. */
  public Set<UUID> photographed() {
    return Set.copyOf(store.photographed());
  }
}
