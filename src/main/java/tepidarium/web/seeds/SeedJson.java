package tepidarium.web.seeds;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Act;
import tepidarium.germination.Culled;
import tepidarium.germination.Entry;
import tepidarium.germination.Figure;
import tepidarium.germination.Freshness;
import tepidarium.germination.NextCheck;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;
import tepidarium.web.JsonValues;

/** The JSON forms of species, lots, sowings and entries. */
final class SeedJson {
  private SeedJson() {}

  record SpeciesJson(String id, String name, Map<String, @Nullable Figure> figures) {
    static SpeciesJson of(Species species) {
      Map<String, @Nullable Figure> figures = new LinkedHashMap<>();
      for (Trait trait : Trait.values()) {
        figures.put(trait.key(), species.figures().get(trait));
      }
      return new SpeciesJson(species.id(), species.name(), figures);
    }
  }

  record LotJson(
      long id,
      String species,
      @Nullable String name,
      int seeds,
      Instant gatheredAt,
      String from,
      @Nullable String place,
      @Nullable String kept,
      @Nullable String remark,
      @Nullable String accession,
      int sown,
      int left,
      @Nullable Freshness freshness,
      ViabilityJson.@Nullable PointJson germinateIfSownNow) {}

  record PortionJson(String group, String container, int seeds) {}

  record CulledJson(int count, String reason, boolean germinated) {
    static CulledJson of(Culled culled) {
      return new CulledJson(culled.count(), JsonValues.lower(culled.reason()), culled.germinated());
    }
  }

  record SownJson(long lot, @Nullable String name, List<PortionJson> groups) {}

  record MovedJson(
      String to,
      @Nullable Integer ungerminated,
      @Nullable Integer germinated,
      @Nullable String splitInto,
      @Nullable String joinTo) {}

  record CheckedJson(
      int germinated, List<CulledJson> culled, int pottedOn, List<Double> rootLengthsCm) {}

  record SurvivalJson(int alive) {}

  record NamedJson(@Nullable String name) {}

  record EntryJson(
      UUID id,
      long sowing,
      Instant at,
      String kind,
      @Nullable String group,
      @Nullable SownJson sown,
      @Nullable MovedJson move,
      @Nullable CheckedJson check,
      @Nullable SurvivalJson survival,
      @Nullable NamedJson named,
      Instant recordedAt,
      @Nullable String by,
      @Nullable String remark,
      @Nullable UUID corrects,
      @Nullable String reason,
      @Nullable UUID correctedBy,
      boolean photo) {
    static EntryJson of(Entry entry, @Nullable Entry replacement, boolean photo) {
      Act act = entry.act();
      return new EntryJson(
          entry.id(),
          entry.sowing(),
          entry.at(),
          act.kind(),
          act.group() == null ? null : act.group().toString(),
          act instanceof Act.Sown sown ? sown(sown) : null,
          act instanceof Act.Moved moved ? moved(moved) : null,
          act instanceof Act.Checked check ? checked(check) : null,
          act instanceof Act.Survival survival ? new SurvivalJson(survival.alive()) : null,
          act instanceof Act.Named named ? new NamedJson(named.name()) : null,
          entry.recordedAt(),
          entry.by(),
          entry.remark(),
          entry.corrects(),
          entry.reason(),
          replacement == null ? null : replacement.id(),
          photo);
    }

    private static SownJson sown(Act.Sown sown) {
      List<PortionJson> groups =
          sown.parts().stream()
              .map(p -> new PortionJson(p.group().toString(), p.container().value(), p.seeds()))
              .toList();
      return new SownJson(sown.lot(), sown.name(), groups);
    }

    private static MovedJson moved(Act.Moved moved) {
      return new MovedJson(
          moved.to().value(),
          moved.ungerminated(),
          moved.germinated(),
          moved.splitInto() == null ? null : moved.splitInto().toString(),
          moved.joinTo() == null ? null : moved.joinTo().toString());
    }

    private static CheckedJson checked(Act.Checked check) {
      return new CheckedJson(
          check.germinated(),
          check.culled().stream().map(CulledJson::of).toList(),
          check.pottedOn(),
          check.rootLengthsCm());
    }
  }

  record GroupJson(
      String id,
      @Nullable String name,
      String container,
      int ungerminated,
      int notLookedAt,
      int germinated,
      int culled,
      int potted,
      int alive,
      @Nullable Instant lastCheck,
      @Nullable Instant endedAt,
      @Nullable NextCheck nextCheck) {}

  record SowingJson(
      long id,
      @Nullable String name,
      long lot,
      String species,
      String speciesName,
      Instant at,
      double day,
      int sown,
      int notLookedAt,
      int ungerminated,
      int germinated,
      int culled,
      int potted,
      int alive,
      int everGerminated,
      List<GroupJson> groups,
      UUID lastEntry) {}

  /** An entry with its sowing after the entry; the sowing is null if it was withdrawn. */
  record EntryAnswer(EntryJson entry, @Nullable SowingJson sowing) {}
}
