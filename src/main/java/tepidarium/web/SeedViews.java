package tepidarium.web;

import java.time.Instant;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Register;
import tepidarium.germination.Course;
import tepidarium.germination.Entry;
import tepidarium.germination.Freshness;
import tepidarium.germination.GerminationData;
import tepidarium.germination.GroupState;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.NextCheck;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.germination.Species;
import tepidarium.ledger.Chronicle;
import tepidarium.series.StoreException;

/** Puts together what the API shows of lots, sowings and seed groups. */
final class SeedViews {
  private final SeedJournal journal;
  private final Register register;
  private final Chronicle chronicle;
  private final Views views;

  SeedViews(SeedJournal journal, Register register, Chronicle chronicle, Views views) {
    this.journal = journal;
    this.register = register;
    this.chronicle = chronicle;
    this.views = views;
  }

  Instant now() {
    return views.now();
  }

  /** What nothing has is not found. */
  static <T> T found(Supplier<T> supplier) {
    try {
      return supplier.get();
    } catch (NoSuchElementException e) {
      throw new NotFound(e.getMessage());
    }
  }

  SeedJson.LotJson lot(Lot lot) {
    LotDetails details = lot.details();
    int sown = journal.sownOf(lot.id());
    return new SeedJson.LotJson(
        lot.id(),
        details.species(),
        details.name(),
        details.seeds(),
        details.gatheredAt(),
        SeedJson.lower(details.origin()),
        details.place(),
        details.kept(),
        details.remark(),
        sown,
        details.seeds() - sown,
        Freshness.of(journal.species().existing(details.species()), details.gatheredAt(), now()));
  }

  Sowing existing(long id) {
    return journal
        .sowing(id)
        .filter(sowing -> sowing.course() != null)
        .orElseThrow(() -> new NotFound("there is no sowing " + id));
  }

  Course course(Sowing sowing) {
    Course course = sowing.course();
    if (course == null) {
      throw new NotFound("sowing " + sowing.id() + " was withdrawn");
    }
    return course;
  }

  Species species(Course course) {
    long lot = course.sowing().lot();
    return journal
        .lot(lot)
        .map(found -> journal.species().existing(found.details().species()))
        .orElseThrow(() -> new NotFound("there is no seed lot " + lot));
  }

  /** What the checks told of the sowings of this species that were sown before. */
  List<GerminationData> past(Sowing sowing, Course course, Species species) {
    return pastCourses(sowing, course, species).stream().map(Course::data).toList();
  }

  /** The sowings of this species that were sown before, in the order of their numbers. */
  List<Course> pastCourses(Sowing sowing, Course course, Species species) {
    return sowingsOf(species).stream()
        .filter(other -> other.id() != sowing.id())
        .map(this::course)
        .filter(other -> other.sownAt().isBefore(course.sownAt()))
        .toList();
  }

  /** All sowings of a species, in the order of their numbers. */
  List<Sowing> sowingsOf(Species species) {
    return journal.sowings().stream()
        .filter(sowing -> species(course(sowing)).id().equals(species.id()))
        .toList();
  }

  PathHeat heat(Species species) {
    return new PathHeat(chronicle, register, species);
  }

  SeedJson.SowingJson sowing(Sowing sowing) {
    Course course = course(sowing);
    Species species = species(course);
    PathHeat heat = heat(species);
    List<SeedJson.GroupJson> groups =
        course.groups().stream().map(group -> group(course, species, group, heat)).toList();
    List<Course.Step> steps = course.steps();
    return new SeedJson.SowingJson(
        sowing.id(),
        course.sowing().name(),
        course.sowing().lot(),
        species.id(),
        species.name(),
        course.sownAt(),
        course.day(now()),
        course.sowing().seeds(),
        course.data().notLookedAt(),
        course.sum(GroupState::ungerminated),
        course.sum(GroupState::germinated),
        course.sum(GroupState::culled),
        course.sum(GroupState::potted),
        course.sum(GroupState::alive),
        course.sum(GroupState::everGerminated),
        groups,
        lastWritten(steps));
  }

  private static UUID lastWritten(List<Course.Step> steps) {
    Entry last = steps.get(0).entry();
    for (Course.Step step : steps) {
      last = step.entry().recordedAt().isBefore(last.recordedAt()) ? last : step.entry();
    }
    return last.id();
  }

  private SeedJson.GroupJson group(
      Course course, Species species, GroupState group, PathHeat heat) {
    return new SeedJson.GroupJson(
        group.id().toString(),
        group.container().value(),
        group.ungerminated(),
        group.seenBy(course.sownAt()),
        group.germinated(),
        group.culled(),
        group.potted(),
        group.alive(),
        group.checkedAt(),
        group.endedAt(),
        NextCheck.of(species, course.sownAt(), group, pace(group, heat)));
  }

  /** Only of what was not checked yet: later the days since the last check decide. */
  private NextCheck.@Nullable Pace pace(GroupState group, PathHeat heat) {
    if (group.checkedAt() != null || group.living() == 0) {
      return null;
    }
    try {
      PathHeat.HeatJson sum = heat.of(group.strands(), now(), List.of());
      return sum.coveredHours() < 24 || sum.gapHours() > sum.coveredHours()
          ? null
          : new NextCheck.Pace(sum.degreeHours(), sum.coveredHours());
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
        sowing.course() == null ? null : sowing(sowing));
  }
}
