package tepidarium.season;

import static tepidarium.season.LessonWords.cases;
import static tepidarium.season.LessonWords.figures;
import static tepidarium.season.LessonWords.format;
import static tepidarium.season.LessonWords.heat;
import static tepidarium.season.LessonWords.others;
import static tepidarium.season.LessonWords.percent;
import static tepidarium.season.LessonWords.points;

import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Draws the lessons about seeds and comparisons by the rules of {@link Lessons}. */
final class ResultLessons {
  private static final double MANY_CULLED = 0.1;

  private ResultLessons() {}

  private static int discarded(SowingResult sowing) {
    return sowing.culledFor().stream()
        .filter(line -> !line.reason().equals("taken"))
        .mapToInt(SowingResult.CulledFor::seeds)
        .sum();
  }

  static @Nullable Lesson culled(List<SowingResult> sowings) {
    ToDoubleFunction<SowingResult> share =
        candidate -> (double) discarded(candidate) / Math.max(1, candidate.lookedAt());
    List<SowingResult> found =
        cases(sowings, candidate -> share.applyAsDouble(candidate) > MANY_CULLED, share);
    if (found.isEmpty()) {
      return null;
    }
    SowingResult worst = found.get(0);
    SowingResult.CulledFor greatest =
        worst.culledFor().stream()
            .filter(line -> !line.reason().equals("taken"))
            .findFirst()
            .orElseThrow();
    String why =
        greatest.reason().equals("mould")
            ? (greatest.seeds() == discarded(worst) ? "all" : greatest.seeds() + " of them")
                + " for mould"
            : format("most often for the reason \"%s\" (%d)", greatest.reason(), greatest.seeds());
    return new Lesson(
        "culled",
        format(
                "%d of %d seeds of %s were discarded, %s.",
                discarded(worst), worst.lookedAt(), worst.name(), why)
            + (found.size() == 1
                ? ""
                : format(
                    " The share was also above %s for %s.",
                    percent(MANY_CULLED), others(found.size()))),
        figures(
            "name",
            worst.name(),
            "discarded",
            discarded(worst),
            "seeds",
            worst.lookedAt(),
            "reason",
            greatest.reason(),
            "ofReason",
            greatest.seeds(),
            "above",
            MANY_CULLED,
            "others",
            found.size() - 1),
        share.applyAsDouble(worst));
  }

  static @Nullable Lesson clearDifference(List<SowingPair> pairs) {
    List<SowingPair> found =
        cases(
            pairs, pair -> pair.difference().apart(), pair -> Math.abs(pair.difference().value()));
    if (found.isEmpty()) {
      return null;
    }
    SowingPair greatest = found.get(0);
    boolean first = greatest.difference().value() > 0;
    String chance =
        pairs.size() == 1
            ? ""
            : format(
                " Of %d compared pairs, %d differ clearly; about "
                    + "one in twenty would do so by chance alone.",
                pairs.size(), found.size());
    return new Lesson(
        "sowings",
        format(
                "%s did better than %s by %s. This difference is unlikely to be chance alone.%s",
                first ? greatest.firstName() : greatest.secondName(),
                first ? greatest.secondName() : greatest.firstName(),
                points(greatest.difference()),
                greatest.uneven()
                    ? format(
                        " They were watched for different times: %.0f and %.0f days.",
                        first ? greatest.firstDays() : greatest.secondDays(),
                        first ? greatest.secondDays() : greatest.firstDays())
                    : " The counts do not show the cause.")
            + chance,
        figures(
            "better",
            first ? greatest.firstName() : greatest.secondName(),
            "worse",
            first ? greatest.secondName() : greatest.firstName(),
            "difference",
            Math.abs(greatest.difference().value()),
            "low",
            end(greatest.difference(), first),
            "high",
            end(greatest.difference(), !first),
            "betterDays",
            greatest.uneven() ? first ? greatest.firstDays() : greatest.secondDays() : null,
            "worseDays",
            greatest.uneven() ? first ? greatest.secondDays() : greatest.firstDays() : null,
            "pairs",
            pairs.size(),
            "clear",
            found.size()),
        Math.abs(greatest.difference().value()));
  }

  /** An end of an interval, seen from the side that has more. */
  private static @Nullable Double end(EstimateWithLimits difference, boolean low) {
    Double end = low ? difference.low() : difference.high();
    return end == null ? null : difference.value() > 0 ? end : -end;
  }

  /** About the pair with the most seeds among those without a clear difference. */
  static @Nullable Lesson undecided(List<SowingPair> pairs) {
    SowingPair pair =
        pairs.stream()
            .filter(candidate -> !candidate.difference().apart())
            .findFirst()
            .orElse(null);
    if (pair == null) {
      return null;
    }
    Long needed = pair.seedsEach();
    String seeds =
        needed == null
            ? "The same fraction of both germinated. This does not prove that they are equal."
            : format(
                "To find a difference of this size with a power of 80 %%, "
                    + "each sowing needs about %d seeds; the smaller one had %d.",
                needed, pair.fewestSeeds());
    return new Lesson(
        "undecided",
        format("No clear difference between %s and %s. ", pair.firstName(), pair.secondName())
            + seeds,
        figures(
            "first",
            pair.firstName(),
            "second",
            pair.secondName(),
            "needed",
            needed,
            "smaller",
            pair.fewestSeeds()),
        0);
  }

  static @Nullable Lesson sources(@Nullable SourceComparison sources) {
    if (sources == null) {
      return null;
    }
    ToDoubleFunction<SourceComparison.Pair> weight = pair -> gainShare(sources, pair);
    List<SourceComparison.Pair> found =
        cases(sources.pairs(), SourceComparison.Pair::differs, weight);
    if (found.isEmpty()) {
      return null;
    }
    SourceComparison.Pair greatest = found.get(0);
    EstimateWithLimits gain = Objects.requireNonNull(greatest.degreeHoursPerDay());
    boolean more = gain.value() > 0;
    return new Lesson(
        "sources",
        sourceWords(greatest),
        figures(
            "more",
            more ? greatest.first() : greatest.second(),
            "less",
            more ? greatest.second() : greatest.first(),
            "gain",
            Math.abs(gain.value()),
            "low",
            end(gain, more),
            "high",
            end(gain, !more)),
        gainShare(sources, greatest));
  }

  private static String sourceWords(SourceComparison.Pair pair) {
    EstimateWithLimits gain = Objects.requireNonNull(pair.degreeHoursPerDay());
    double low = gain.low() == null ? Double.NaN : gain.low();
    double high = gain.high() == null ? Double.NaN : gain.high();
    boolean more = gain.value() > 0;
    return format(
        "%s gave %s a day more than %s (95 %%: %s to %s).",
        LessonWords.capital(more ? pair.first() : pair.second()),
        heat(Math.abs(gain.value())),
        more ? pair.second() : pair.first(),
        heat(more ? low : -high),
        heat(more ? high : -low));
  }

  /** The difference as a share of the heat of the warmer source, 0 to 1. */
  private static double gainShare(SourceComparison sources, SourceComparison.Pair pair) {
    EstimateWithLimits gain = pair.degreeHoursPerDay();
    double warmer =
        sources.sources().stream()
            .filter(
                candidate ->
                    candidate.name().equals(pair.first()) || candidate.name().equals(pair.second()))
            .map(SourceComparison.Source::degreeHoursPerDay)
            .flatMap(Stream::ofNullable)
            .mapToDouble(EstimateWithLimits::value)
            .max()
            .orElse(0);
    return gain == null || warmer <= 0 ? 0 : Math.min(1, Math.abs(gain.value()) / warmer);
  }

  private record Changed(EarlierSeason season, EarlierSeason.Species species) {}

  static @Nullable Lesson earlier(List<EarlierSeason> earlier) {
    List<Changed> all =
        earlier.stream()
            .flatMap(
                season ->
                    season.species().stream().map(candidate -> new Changed(season, candidate)))
            .toList();
    List<Changed> found =
        cases(
            all,
            candidate -> candidate.species().difference().apart(),
            candidate -> Math.abs(candidate.species().difference().value()));
    if (found.isEmpty()) {
      return null;
    }
    Changed greatest = found.get(0);
    EarlierSeason.Species species = greatest.species();
    return new Lesson(
        "earlier",
        format(
            "%s did %s than in %s by %s: %d of %d now, %d "
                + "of %d then. The counts do not show the cause.",
            species.name(),
            species.difference().value() > 0 ? "better" : "worse",
            greatest.season().name(),
            points(species.difference()),
            species.now().germinated(),
            species.now().sown(),
            species.then().germinated(),
            species.then().sown()),
        figures(
            "name",
            species.name(),
            "season",
            greatest.season().name(),
            "change",
            species.difference().value(),
            "low",
            end(species.difference(), species.difference().value() > 0),
            "high",
            end(species.difference(), species.difference().value() <= 0),
            "nowGerminated",
            species.now().germinated(),
            "nowSown",
            species.now().sown(),
            "thenGerminated",
            species.then().germinated(),
            "thenSown",
            species.then().sown()),
        Math.abs(species.difference().value()));
  }
}
