package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;

/** Finds sowings in the journal, with their species and the earlier sowings of that species. */
public final class SowingFinder {
  private final SeedJournal journal;

  public SowingFinder(SeedJournal journal) {
    this.journal = journal;
  }

  /**
   * A sowing by its number.
   *
   * @throws NoSuchElementException if there is no such sowing, or if it was withdrawn
   */
  public Sowing existing(long id) {
    return journal
        .sowing(id)
        .filter(sowing -> sowing.timeline() != null)
        .orElseThrow(() -> new NoSuchElementException("there is no sowing " + id));
  }

  /**
   * The timeline of a sowing.
   *
   * @throws NoSuchElementException if it was withdrawn
   */
  public SowingTimeline timeline(Sowing sowing) {
    SowingTimeline timeline = sowing.timeline();
    if (timeline == null) {
      throw new NoSuchElementException("sowing " + sowing.id() + " was withdrawn");
    }
    return timeline;
  }

  /** The species of a sowing's lot. */
  public Species species(SowingTimeline timeline) {
    long lot = timeline.sowing().lot();
    return journal
        .lots()
        .find(lot)
        .map(found -> journal.species().existing(found.details().species()))
        .orElseThrow(() -> new NoSuchElementException("there is no seed lot " + lot));
  }

  /** All sowings that were not withdrawn, by number. */
  public List<Sowing> all() {
    return journal.sowings();
  }

  /** All sowings of a species, by number. */
  public List<Sowing> of(Species species) {
    return all().stream()
        .filter(sowing -> species(timeline(sowing)).id().equals(species.id()))
        .toList();
  }

  /** The sowings of the same species that were sown earlier, by number. */
  public List<SowingTimeline> earlier(Sowing sowing, Species species) {
    SowingTimeline timeline = timeline(sowing);
    return of(species).stream()
        .filter(other -> other.id() != sowing.id())
        .map(this::timeline)
        .filter(other -> other.sownAt().isBefore(timeline.sownAt()))
        .toList();
  }

  /**
   * The viability curve of a species: germination by days since gathering, over all its sowings.
   */
  public Viability viability(Species species) {
    List<Viability.Kept> kept = new ArrayList<>();
    for (Sowing sowing : of(species)) {
      SowingTimeline timeline = timeline(sowing);
      long lot = timeline.sowing().lot();
      journal
          .lots()
          .find(lot)
          .map(found -> Freshness.daysBetween(found.details().gatheredAt(), timeline.sownAt()))
          .filter(days -> days >= 0)
          .ifPresent(days -> kept.add(new Viability.Kept(lot, days, timeline)));
    }
    return Viability.of(kept, species.value(Trait.GIVE_UP_DAYS));
  }

  /** The name that the grower gave a lot; null if it has none. */
  public @Nullable String lotName(long lot) {
    return journal.lots().find(lot).map(found -> found.details().name()).orElse(null);
  }
}
