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
import tepidarium.reading.InputRule;

/**
 * A sowing with its whole journal. Entries that no other entry corrects or withdraws are valid; the
 * timeline follows from them. Among entries of the same instant, a correction takes the place of
 * the entry it corrects.
 *
 * @param entries all entries in the order in which they were recorded, including corrected and
 *     withdrawn ones
 * @param timeline null if the sowing itself was withdrawn
 */
public record Sowing(long id, List<Entry> entries, @Nullable SowingTimeline timeline) {
  public Sowing {
    entries = List.copyOf(entries);
  }

  /**
   * Builds a sowing from its journal.
   *
   * @throws ContradictedEntry at the first impossible entry
   */
  static Sowing of(long id, List<Entry> entries) {
    List<Entry> valid = valid(entries);
    return new Sowing(id, entries, valid.isEmpty() ? null : SowingTimeline.of(valid));
  }

  private static List<Entry> valid(List<Entry> entries) {
    Map<UUID, Integer> places = new HashMap<>();
    Map<UUID, Entry> known = new HashMap<>();
    Set<UUID> replaced = new HashSet<>();
    for (Entry entry : entries) {
      UUID corrects = entry.corrects();
      if (corrects != null) {
        checkCorrectable(entry, known.get(corrects), replaced.contains(corrects));
        replaced.add(corrects);
      }
      places.put(entry.id(), corrects == null ? places.size() : places.get(corrects));
      if (known.put(entry.id(), entry) != null) {
        throw new ContradictedEntry(entry, "its id appears twice");
      }
    }
    List<Entry> valid = new ArrayList<>(entries);
    valid.removeIf(e -> replaced.contains(e.id()) || e.act() instanceof Act.Withdrawn);
    valid.sort(Comparator.comparing(Entry::at).thenComparing(e -> places.get(e.id())));
    return valid;
  }

  private static void checkCorrectable(Entry entry, @Nullable Entry old, boolean replaced) {
    if (old == null) {
      throw new ContradictedEntry(entry, "the entry that it corrects is not in this journal");
    }
    if (replaced || old.act() instanceof Act.Withdrawn) {
      throw new ContradictedEntry(
          entry,
          "the entry that it corrects is no longer valid: correct the entry that replaced it",
          InputRule.CORRECTED_ALREADY.with());
    }
    boolean sameKind = old.act().kind().equals(entry.act().kind());
    if (!sameKind && !(entry.act() instanceof Act.Withdrawn)) {
      throw new ContradictedEntry(
          entry,
          "the entry that it corrects is of another kind, "
              + old.act().kind()
              + ": withdraw that entry");
    }
  }

  /** The entry that corrects or withdraws an entry; null if it is valid. */
  public @Nullable Entry replacement(UUID entry) {
    return entries.stream().filter(e -> entry.equals(e.corrects())).findFirst().orElse(null);
  }

  /** An unused group id; 1 is the lowest. Ids in corrected entries count as used. */
  GroupId unusedGroup(int rank) {
    int last =
        entries.stream()
            .flatMap(entry -> namedGroups(entry.act()))
            .mapToInt(GroupId::number)
            .max()
            .orElse(0);
    return new GroupId(id, last + rank);
  }

  private static Stream<GroupId> namedGroups(Act act) {
    if (act instanceof Act.Sown sown) {
      return sown.parts().stream().map(Act.Part::group);
    }
    return act instanceof Act.Moved moved ? Stream.ofNullable(moved.splitInto()) : Stream.empty();
  }
}
