package tepidarium.germination;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A sowing with its whole journal. What counts are the entries that no other entry corrects;
 * everything else follows from them. A correction takes the place of what it corrects among entries
 * of the same instant.
 *
 * @param entries as they were written down, corrected and withdrawn ones included
 * @param timeline null once the sowing itself was withdrawn
 */
public record Sowing(long id, List<Entry> entries, @Nullable SowingTimeline timeline) {
  public Sowing {
    entries = List.copyOf(entries);
  }

  /**
   * Reads a journal.
   *
   * @throws ContradictedEntry at the first entry that cannot be
   */
  static Sowing of(long id, List<Entry> entries) {
    List<Entry> counting = counting(entries);
    return new Sowing(id, entries, counting.isEmpty() ? null : SowingTimeline.of(counting));
  }

  private static List<Entry> counting(List<Entry> entries) {
    Map<UUID, Integer> places = new HashMap<>();
    Map<UUID, Entry> known = new HashMap<>();
    Set<UUID> replaced = new HashSet<>();
    for (Entry entry : entries) {
      UUID corrects = entry.corrects();
      if (corrects != null) {
        correctable(entry, known.get(corrects), replaced.contains(corrects));
        replaced.add(corrects);
      }
      places.put(entry.id(), corrects == null ? places.size() : places.get(corrects));
      if (known.put(entry.id(), entry) != null) {
        throw new ContradictedEntry(entry, "it is there twice");
      }
    }
    List<Entry> counting = new ArrayList<>(entries);
    counting.removeIf(e -> replaced.contains(e.id()) || e.act() instanceof Act.Withdrawn);
    counting.sort(Comparator.comparing(Entry::at).thenComparing(e -> places.get(e.id())));
    return counting;
  }

  private static void correctable(Entry entry, @Nullable Entry old, boolean replaced) {
    if (old == null) {
      throw new ContradictedEntry(entry, "the entry that it corrects is not in this journal");
    }
    if (replaced || old.act() instanceof Act.Withdrawn) {
      throw new ContradictedEntry(
          entry, "the entry that it corrects counts no more: correct the one that replaced it");
    }
    boolean sameKind = old.act().kind().equals(entry.act().kind());
    if (!sameKind && !(entry.act() instanceof Act.Withdrawn)) {
      throw new ContradictedEntry(
          entry, "what it corrects is of the kind " + old.act().kind() + ": withdraw that");
    }
  }

  /** The entry that corrects or withdraws this one; null while it counts. */
  public @Nullable Entry replacement(UUID entry) {
    return entries.stream().filter(e -> entry.equals(e.corrects())).findFirst().orElse(null);
  }

  /** The first, second, … group that no entry, corrected ones included, has named. */
  GroupId free(int which) {
    int last =
        entries.stream()
            .flatMap(entry -> named(entry.act()))
            .mapToInt(GroupId::number)
            .max()
            .orElse(0);
    return new GroupId(id, last + which);
  }

  private static Stream<GroupId> named(Act act) {
    if (act instanceof Act.Sown sown) {
      return sown.parts().stream().map(Act.Part::group);
    }
    return act instanceof Act.Moved moved ? Stream.ofNullable(moved.splitInto()) : Stream.empty();
  }
}
