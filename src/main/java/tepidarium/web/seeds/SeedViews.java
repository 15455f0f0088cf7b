package tepidarium.web.seeds;

import java.time.Clock;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.ContainerTemperatures;
import tepidarium.germination.Entry;
import tepidarium.germination.Freshness;
import tepidarium.germination.GroupState;
import tepidarium.germination.HeatPath;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.NextCheck;
import tepidarium.germination.SeedHeat;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.germination.Species;
import tepidarium.germination.Viability;
import tepidarium.series.StoreException;
import tepidarium.web.JsonValues;
import tepidarium.web.NotFound;

/** Creates the JSON of lots, sowings and seed groups. */
public final class SeedViews {
  private final SeedJournal journal;
  private final SowingFinder sowings;
  private final ContainerTemperatures temperatures;
  private final Clock clock;

  public SeedViews(
      SeedJournal journal, SowingFinder sowings, ContainerTemperatures temperatures, Clock clock) {
    this.journal = journal;
    this.sowings = sowings;
    this.temperatures = temperatures;
    this.clock = clock;
  }

  Instant now() {
    return clock.instant();
  }

  SeedJson.LotJson lot(Lot lot) {
    return lot(lot, sowings.viability(journal.species().existing(lot.details().species())));
  }

  /** All lots; computes the viability of each species once. */
  List<SeedJson.LotJson> lots() {
    Map<String, Viability> bySpecies = new HashMap<>();
    return journal.lots().all().stream()
        .map(
            lot ->
                lot(
                    lot,
                    bySpecies.computeIfAbsent(
                        lot.details().species(),
                        id -> sowings.viability(journal.species().existing(id)))))
        .toList();
  }

  private SeedJson.LotJson lot(Lot lot, Viability viability) {
    LotDetails details = lot.details();
    int sown = journal.lots().sown(lot.id());
    Viability.Estimate now = viability.after(Freshness.daysBetween(details.gatheredAt(), now()));
    return new SeedJson.LotJson(
        lot.id(),
        details.species(),
        details.name(),
        details.seeds(),
        details.gatheredAt(),
        JsonValues.lower(details.origin()),
        details.place(),
        details.kept(),
        details.remark(),
        details.accession(),
        sown,
        details.seeds() - sown,
        Freshness.of(journal.species().existing(details.species()), details.gatheredAt(), now()),
        now == null ? null : ViabilityJson.PointJson.of(now));
  }

  /** Returns the sowing with this id; throws NotFound if there is none. */
  Sowing existing(long id) {
    return NotFound.ifMissing(() -> sowings.existing(id));
  }

  /** Creates the object that sums the heat of seeds of a species, for one request. */
  HeatPath path(Species species) {
    return new HeatPath(temperatures, species.heatRule());
  }

  SeedJson.SowingJson sowing(Sowing sowing) {
    SowingTimeline timeline = sowings.timeline(sowing);
    Species species = sowings.species(timeline);
    HeatPath path = path(species);
    List<SeedJson.GroupJson> groups =
        timeline.groups().stream().map(group -> group(timeline, species, group, path)).toList();
    List<SowingTimeline.Step> steps = timeline.steps();
    return new SeedJson.SowingJson(
        sowing.id(),
        timeline.name(),
        timeline.sowing().lot(),
        species.id(),
        species.name(),
        timeline.sownAt(),
        timeline.day(now()),
        timeline.sowing().seeds(),
        timeline.data().notLookedAt(),
        timeline.sum(GroupState::ungerminated),
        timeline.sum(GroupState::germinated),
        timeline.sum(GroupState::culled),
        timeline.sum(GroupState::potted),
        timeline.sum(GroupState::alive),
        timeline.sum(GroupState::everGerminated),
        groups,
        lastWritten(steps));
  }

  private static UUID lastWritten(List<SowingTimeline.Step> steps) {
    Entry last = steps.get(0).entry();
    for (SowingTimeline.Step step : steps) {
      last = step.entry().recordedAt().isBefore(last.recordedAt()) ? last : step.entry();
    }
    return last.id();
  }

  private SeedJson.GroupJson group(
      SowingTimeline timeline, Species species, GroupState group, HeatPath path) {
    return new SeedJson.GroupJson(
        group.id().toString(),
        timeline.name(group.id()),
        group.container().value(),
        group.ungerminated(),
        group.seenBy(timeline.sownAt()),
        group.germinated(),
        group.culled(),
        group.potted(),
        group.alive(),
        group.checkedAt(),
        group.endedAt(),
        NextCheck.of(species, timeline.sownAt(), group, pace(group, species, path)));
  }

  /** The heat per time of a group that was not checked yet; null otherwise. */
  private NextCheck.@Nullable Pace pace(GroupState group, Species species, HeatPath path) {
    if (group.checkedAt() != null || group.living() == 0) {
      return null;
    }
    try {
      SeedHeat seedHeat = path.seedHeat(group.seedPaths(), now(), now(), species.heatRule());
      return seedHeat.coveredHours() < 24 || !seedHeat.known()
          ? null
          : new NextCheck.Pace(seedHeat.degreeHours(), seedHeat.coveredHours());
    } catch (StoreException e) {
      return null;
    }
  }

  List<SeedJson.EntryJson> entries(Sowing sowing) {
    Set<UUID> photographed = journal.photographed();
    return sowing.entries().stream().map(entry -> entry(sowing, entry, photographed)).toList();
  }

  private static SeedJson.EntryJson entry(Sowing sowing, Entry entry, Set<UUID> photographed) {
    boolean photo = photographed.contains(entry.id());
    return SeedJson.EntryJson.of(entry, sowing.replacement(entry.id()), photo);
  }

  SeedJson.EntryAnswer answer(Entry entry) {
    Sowing sowing =
        journal
            .sowing(entry.sowing())
            .orElseThrow(() -> new NotFound("there is no sowing " + entry.sowing()));
    return new SeedJson.EntryAnswer(
        entry(sowing, entry, journal.photographed()),
        sowing.timeline() == null ? null : sowing(sowing));
  }
}
