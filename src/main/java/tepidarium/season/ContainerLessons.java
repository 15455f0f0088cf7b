package tepidarium.season;

import static tepidarium.season.LessonWords.amount;
import static tepidarium.season.LessonWords.format;
import static tepidarium.season.LessonWords.found;
import static tepidarium.season.LessonWords.heat;
import static tepidarium.season.LessonWords.others;
import static tepidarium.season.LessonWords.percent;
import static tepidarium.season.LessonWords.soWere;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.season.ContainerResult.LeaksOfKind;

/** What containers did, by the rules of {@link Lessons}. */
final class ContainerLessons {
  private static final double MUCH_OF_THE_TIME = 0.05;
  private static final double LEAST_HOURS = 24;
  private static final double LEAST_GAP_HOURS = 12;
  private static final int REPEATED_DAYS = 2;
  private static final double HOURS_PER_DAY = 24;

  static final String DAYLIGHT =
      "Daylight got into %s on %d days (%s lux·h): turn the seam or the lid's edge that faces the"
          + " window away from it.";
  static final String LAMP =
      "A lamp shone into %s on %d days (%s lux·h): see which one was on, or write openings down.";
  static final String OTHER =
      "Light got into %s on %d days (%s lux·h), and it cannot be told from where: see that the lid"
          + " sits tight, and write openings down.";

  private ContainerLessons() {}

  private static boolean measured(ContainerResult one) {
    return one.coveredHours() >= LEAST_HOURS;
  }

  private static double lostShare(ContainerResult one) {
    double lost = one.cold().degreeHoursLost();
    return lost == 0 ? 0 : lost / (lost + one.degreeHours());
  }

  static @Nullable Lesson cold(List<ContainerResult> containers) {
    List<ContainerResult> found =
        found(
            containers,
            one -> measured(one) && one.cold().hours() > MUCH_OF_THE_TIME * one.coveredHours(),
            ContainerLessons::lostShare);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    double all = found.stream().mapToDouble(one -> one.cold().degreeHoursLost()).sum();
    Double perDay = worst.degreeHoursPerDay();
    double lost = worst.cold().degreeHoursLost();
    String days =
        perDay == null || perDay == 0 || lost / perDay < 0.1
            ? ""
            : format(", as much as it gave in %.1f days", lost / perDay);
    String others =
        found.size() == 1 ? "" : format(" So were %s: %s in all.", others(found.size()), heat(all));
    return new Lesson(
        "cold",
        format(
                "%s was below %.1f °C for %s of the time that was measured (%.0f h). That cost %s"
                    + " against lying at that limit%s.",
                worst.name(),
                worst.low(),
                percent(worst.cold().hours() / worst.coveredHours()),
                worst.cold().hours(),
                heat(lost),
                days)
            + others,
        lostShare(worst));
  }

  static @Nullable Lesson hot(List<ContainerResult> containers) {
    ToDoubleFunction<ContainerResult> share = one -> one.hot().hours() / one.coveredHours();
    List<ContainerResult> found =
        found(
            containers, one -> measured(one) && share.applyAsDouble(one) > MUCH_OF_THE_TIME, share);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    Double hottest = worst.hottest();
    return new Lesson(
        "hot",
        format(
                "%s was above %.1f °C for %s of the time that was measured (%.0f h)%s.",
                worst.name(),
                worst.high(),
                percent(share.applyAsDouble(worst)),
                worst.hot().hours(),
                hottest == null ? "" : format(", at most %.1f °C", hottest))
            + soWere(found.size()),
        share.applyAsDouble(worst));
  }

  static @Nullable Lesson dry(List<ContainerResult> containers) {
    ToDoubleFunction<ContainerResult> share = one -> one.dryHours() / one.humidityCoveredHours();
    List<ContainerResult> found =
        found(
            containers,
            one ->
                one.humidityCoveredHours() >= LEAST_HOURS
                    && share.applyAsDouble(one) > MUCH_OF_THE_TIME,
            share);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    return new Lesson(
        "dry",
        format(
                "%s was drier than %.0f %% for %s of the time that was measured (%.0f h).",
                worst.name(),
                worst.dryBelow(),
                percent(share.applyAsDouble(worst)),
                worst.dryHours())
            + soWere(found.size()),
        share.applyAsDouble(worst));
  }

  /** The leaks of one kind in one container. */
  private record Leaky(ContainerResult container, LeaksOfKind leaks) {
    double share() {
      double days = Math.max(leaks.days(), container.lightCoveredHours() / HOURS_PER_DAY);
      return leaks.days() / days;
    }
  }

  static @Nullable Lesson leaks(String kind, String words, List<ContainerResult> containers) {
    List<Leaky> all =
        containers.stream()
            .flatMap(one -> one.leaks().byKind().stream().map(leaks -> new Leaky(one, leaks)))
            .filter(leaky -> leaky.leaks().kind().equals(kind))
            .toList();
    List<Leaky> found = found(all, one -> one.leaks().days() >= REPEATED_DAYS, Leaky::share);
    if (found.isEmpty()) {
      return null;
    }
    Leaky worst = found.get(0);
    String dose = amount(worst.leaks().doseLuxHours());
    String also =
        found.size() == 1 ? "" : format(" The same happened to %s.", others(found.size()));
    return new Lesson(
        kind.equals("other") ? "light" : kind,
        format(words, worst.container().name(), worst.leaks().days(), dose) + also,
        worst.share());
  }

  static @Nullable Lesson unheard(List<ContainerResult> containers) {
    List<ContainerResult> found =
        found(
            containers,
            one ->
                one.coveredHours() > 0
                    && one.gapHours() >= LEAST_GAP_HOURS
                    && one.gapShare() > MUCH_OF_THE_TIME,
            ContainerResult::gapShare);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    return new Lesson(
        "unheard",
        format(
                "Nothing was heard of %s for %.0f of %.0f h: its heat lies anywhere from %s to %s.",
                worst.name(),
                worst.gapHours(),
                worst.gapHours() + worst.coveredHours(),
                heat(worst.degreeHours()),
                heat(worst.upper()))
            + (found.size() == 1 ? "" : format(" So it was with %s.", others(found.size()))),
        worst.gapShare());
  }

  static @Nullable Lesson blind(List<ContainerResult> containers) {
    List<String> found =
        containers.stream()
            .filter(one -> one.seeds() && one.coveredHours() == 0)
            .map(ContainerResult::name)
            .toList();
    long withSeeds = containers.stream().filter(ContainerResult::seeds).count();
    return found.isEmpty()
        ? null
        : new Lesson(
            "blind",
            format(
                "Seeds lay in %s%s, but no temperature was measured there: what heat they received"
                    + " is not known.",
                found.get(0), found.size() == 1 ? "" : " and " + others(found.size())),
            (double) found.size() / withSeeds);
  }
}
