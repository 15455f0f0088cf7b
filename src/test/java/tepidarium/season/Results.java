package tepidarium.season;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Proportion;

/** Results of made-up sowings and containers, all in order unless said otherwise. */
final class Results {
  static final Instant FROM = Instant.parse("2026-03-01T00:00:00Z");
  static final Instant TO = Instant.parse("2026-04-01T00:00:00Z");
  private static final ContainerResult.Outside NEVER = new ContainerResult.Outside(0, 0, 0, 0, 0);

  private Results() {}

  static SowingResult sowing(
      long number, int seeds, int germinated, SowingResult.CulledFor... culledFor) {
    return sowing(20.0, number, seeds, germinated, culledFor);
  }

  static SowingResult sowing(
      @Nullable Double checkDay,
      long number,
      int seeds,
      int germinated,
      SowingResult.CulledFor... culledFor) {
    return sowing(checkDay, number, seeds, checkDay == null ? seeds : 0, germinated, culledFor);
  }

  /** A sowing of which some seeds lie in a box that nobody opened. */
  static SowingResult sowing(
      @Nullable Double checkDay,
      long number,
      int seeds,
      int notLookedAt,
      int germinated,
      SowingResult.CulledFor... culledFor) {
    Proportion fraction = new Proportion(germinated, Math.max(1, seeds - notLookedAt));
    return new SowingResult(
        number,
        "Lychee, sowing " + number,
        "lychee",
        "Lychee",
        1,
        FROM,
        seeds,
        notLookedAt,
        germinated,
        checkDay == null ? null : EstimateWithLimits.of(fraction.fraction(), fraction.wilson()),
        0,
        List.of(culledFor),
        0,
        0,
        seeds - germinated,
        null,
        checkDay,
        checkDay,
        null,
        null,
        List.of());
  }

  /** A container with seeds that was measured for so many hours at 31 °C, with base 15 °C. */
  record Place(
      String name,
      double coveredHours,
      double gapHours,
      ContainerResult.Outside cold,
      ContainerResult.Outside hot,
      double dryHours,
      List<ContainerResult.LeaksOfKind> leaks) {
    static Place of(String name, double coveredHours) {
      return new Place(name, coveredHours, 0, NEVER, NEVER, 0, List.of());
    }

    Place gap(double hours) {
      return new Place(name, coveredHours, hours, cold, hot, dryHours, leaks);
    }

    Place cold(double hours, double degreeHoursLost) {
      return new Place(
          name,
          coveredHours,
          gapHours,
          new ContainerResult.Outside(1, 0, hours, hours, degreeHoursLost),
          hot,
          dryHours,
          leaks);
    }

    Place hot(double hours) {
      return new Place(
          name,
          coveredHours,
          gapHours,
          cold,
          new ContainerResult.Outside(1, 0, hours, hours, 0),
          dryHours,
          leaks);
    }

    Place dry(double hours) {
      return new Place(name, coveredHours, gapHours, cold, hot, hours, leaks);
    }

    Place leaks(String kind, int days, double doseLuxHours) {
      return new Place(
          name,
          coveredHours,
          gapHours,
          cold,
          hot,
          dryHours,
          List.of(new ContainerResult.LeaksOfKind(kind, days, days, doseLuxHours)));
    }

    ContainerResult result() {
      double heat = 16 * coveredHours;
      return new ContainerResult(
          name.toLowerCase(java.util.Locale.ROOT).replace(' ', '-'),
          name,
          null,
          true,
          15,
          29.5,
          34,
          80,
          coveredHours,
          gapHours,
          0,
          heat,
          heat + 19 * gapHours,
          coveredHours == 0 ? null : 384.0,
          coveredHours == 0 ? null : 1.0,
          coveredHours == 0 ? null : 31.0,
          coveredHours == 0 ? null : 36.2,
          cold,
          hot,
          dryHours,
          coveredHours,
          coveredHours,
          new ContainerResult.Leaks(
              leaks.size(),
              leaks.stream().mapToDouble(ContainerResult.LeaksOfKind::doseLuxHours).sum(),
              leaks),
          0);
    }
  }

  static SeasonReport report(List<SowingResult> sowings, Place... places) {
    return report(sowings, List.of(), places);
  }

  static SeasonReport report(
      List<SowingResult> sowings, List<EarlierSeason.Figures> kept, Place... places) {
    List<ContainerResult> containers = List.of(places).stream().map(Place::result).toList();
    SeasonHeat heat = containers.isEmpty() ? null : new SeasonHeat(15, null, 384, places.length);
    return SeasonReport.of(FROM, TO, sowings, 0, containers, heat, null, kept);
  }
}
