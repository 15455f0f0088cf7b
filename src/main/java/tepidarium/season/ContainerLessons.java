package tepidarium.season;

import static tepidarium.season.LessonWords.amount;
import static tepidarium.season.LessonWords.cases;
import static tepidarium.season.LessonWords.figures;
import static tepidarium.season.LessonWords.format;
import static tepidarium.season.LessonWords.heat;
import static tepidarium.season.LessonWords.others;
import static tepidarium.season.LessonWords.percent;
import static tepidarium.season.LessonWords.sameFor;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tepidarium.season.ContainerResult.LeaksOfKind;

/** Draws the lessons about containers by the rules of {@link Lessons}. */
final class ContainerLessons {
  private static final double MIN_SHARE = 0.05;
  private static final double MIN_HOURS = 24;
  private static final double MIN_GAP_HOURS = 12;
  private static final double HOURS_PER_DAY = 24;
  private static final int REPEATED_DAYS = 2;

  static final String DAYLIGHT =
      "Daylight entered %s on %d days (%s lux·h). Turn the "
          + "seam or the edge of the lid away from the window.";
  static final String LAMP =
      "Lamp light entered %s on %d days (%s lux·h). "
          + "Check which lamp was on, or record openings.";
  static final String OTHER =
      "Light from an unknown source entered %s on %d days (%s "
          + "lux·h). Check that the lid is tight, and record openings.";

  private ContainerLessons() {}

  private static boolean measured(ContainerResult result) {
    return result.coveredHours() >= MIN_HOURS;
  }

  private static double lostShare(ContainerResult result) {
    double lost = result.cold().degreeHoursLost();
    return lost == 0 ? 0 : lost / (lost + result.degreeHours());
  }

  static @Nullable Lesson cold(List<ContainerResult> containers) {
    List<ContainerResult> found =
        cases(
            containers,
            result -> measured(result) && result.cold().hours() > MIN_SHARE * result.coveredHours(),
            ContainerLessons::lostShare);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    double all = found.stream().mapToDouble(result -> result.cold().degreeHoursLost()).sum();
    Double perDay = worst.degreeHoursPerDay();
    double lost = worst.cold().degreeHoursLost();
    Double averageDays =
        perDay == null || perDay == 0 || lost / perDay < 0.1 ? null : lost / perDay;
    String days = averageDays == null ? "" : format(", the heat of %.1f average days", averageDays);
    String others =
        found.size() == 1
            ? ""
            : format(" The same applies to %s: %s in total.", others(found.size()), heat(all));
    return new Lesson(
        "cold",
        format(
                "%s was below %.1f °C for %s of the measured time "
                    + "(%.0f h). Compared with that limit it lost %s%s.",
                worst.name(),
                worst.low(),
                percent(worst.cold().hours() / worst.coveredHours()),
                worst.cold().hours(),
                heat(lost),
                days)
            + others,
        figures(
            "name",
            worst.name(),
            "low",
            worst.low(),
            "share",
            worst.cold().hours() / worst.coveredHours(),
            "hours",
            worst.cold().hours(),
            "lost",
            lost,
            "averageDays",
            averageDays,
            "others",
            found.size() - 1,
            "totalLost",
            all),
        lostShare(worst));
  }

  static @Nullable Lesson hot(List<ContainerResult> containers) {
    ToDoubleFunction<ContainerResult> share =
        result -> result.hot().hours() / result.coveredHours();
    List<ContainerResult> found =
        cases(
            containers,
            result -> measured(result) && share.applyAsDouble(result) > MIN_SHARE,
            share);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    Double hottest = worst.hottest();
    return new Lesson(
        "hot",
        format(
                "%s was above %.1f °C for %s of the measured time (%.0f h)%s.",
                worst.name(),
                worst.high(),
                percent(share.applyAsDouble(worst)),
                worst.hot().hours(),
                hottest == null ? "" : format(", at most %.1f °C", hottest))
            + sameFor(found.size()),
        figures(
            "name",
            worst.name(),
            "high",
            worst.high(),
            "share",
            share.applyAsDouble(worst),
            "hours",
            worst.hot().hours(),
            "hottest",
            hottest,
            "others",
            found.size() - 1),
        share.applyAsDouble(worst));
  }

  static @Nullable Lesson dry(List<ContainerResult> containers) {
    ToDoubleFunction<ContainerResult> share =
        result -> result.dryHours() / result.humidityCoveredHours();
    List<ContainerResult> found =
        cases(
            containers,
            result ->
                result.humidityCoveredHours() >= MIN_HOURS
                    && share.applyAsDouble(result) > MIN_SHARE,
            share);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    return new Lesson(
        "dry",
        format(
                "%s was below %.0f %% humidity for %s of the measured time (%.0f h).",
                worst.name(),
                worst.dryBelow(),
                percent(share.applyAsDouble(worst)),
                worst.dryHours())
            + sameFor(found.size()),
        figures(
            "name",
            worst.name(),
            "low",
            worst.dryBelow(),
            "share",
            share.applyAsDouble(worst),
            "hours",
            worst.dryHours(),
            "others",
            found.size() - 1),
        share.applyAsDouble(worst));
  }

  /** The leaks of one kind in one container. */
  private record LeakingContainer(ContainerResult container, LeaksOfKind leaks) {
    double share() {
      double days = Math.max(leaks.days(), container.lightCoveredHours() / HOURS_PER_DAY);
      return leaks.days() / days;
    }
  }

  static @Nullable Lesson leaks(String kind, String words, List<ContainerResult> containers) {
    List<LeakingContainer> all =
        containers.stream()
            .flatMap(
                result ->
                    result.leaks().byKind().stream()
                        .map(leaks -> new LeakingContainer(result, leaks)))
            .filter(leaking -> leaking.leaks().kind().equals(kind))
            .toList();
    List<LeakingContainer> found =
        cases(all, result -> result.leaks().days() >= REPEATED_DAYS, LeakingContainer::share);
    if (found.isEmpty()) {
      return null;
    }
    LeakingContainer worst = found.get(0);
    String dose = amount(worst.leaks().doseLuxHours());
    String also = found.size() == 1 ? "" : format(" The same applies to %s.", others(found.size()));
    return new Lesson(
        kind.equals("other") ? "light" : kind,
        format(words, worst.container().name(), worst.leaks().days(), dose) + also,
        figures(
            "name",
            worst.container().name(),
            "days",
            worst.leaks().days(),
            "dose",
            worst.leaks().doseLuxHours(),
            "others",
            found.size() - 1),
        worst.share());
  }

  static @Nullable Lesson gaps(List<ContainerResult> containers) {
    List<ContainerResult> found =
        cases(
            containers,
            result ->
                result.coveredHours() > 0
                    && result.gapHours() >= MIN_GAP_HOURS
                    && result.gapShare() > MIN_SHARE,
            ContainerResult::gapShare);
    if (found.isEmpty()) {
      return null;
    }
    ContainerResult worst = found.get(0);
    return new Lesson(
        "unheard",
        format(
                "%s had no readings for %.0f of %.0f h: its heat lies between %s and %s.",
                worst.name(),
                worst.gapHours(),
                worst.gapHours() + worst.coveredHours(),
                heat(worst.degreeHours()),
                heat(worst.upper()))
            + (found.size() == 1 ? "" : format(" The same applies to %s.", others(found.size()))),
        figures(
            "name",
            worst.name(),
            "gapHours",
            worst.gapHours(),
            "hours",
            worst.gapHours() + worst.coveredHours(),
            "least",
            worst.degreeHours(),
            "most",
            worst.upper(),
            "others",
            found.size() - 1),
        worst.gapShare());
  }

  static @Nullable Lesson unmeasured(List<ContainerResult> containers) {
    List<String> found =
        containers.stream()
            .filter(result -> result.seeds() && result.coveredHours() == 0)
            .map(ContainerResult::name)
            .toList();
    long withSeeds = containers.stream().filter(ContainerResult::seeds).count();
    return found.isEmpty()
        ? null
        : new Lesson(
            "blind",
            format(
                "Seeds were kept in %s%s without temperature readings: their heat is not known.",
                found.get(0), found.size() == 1 ? "" : " and " + others(found.size())),
            figures("name", found.get(0), "others", found.size() - 1),
            (double) found.size() / withSeeds);
  }
}
