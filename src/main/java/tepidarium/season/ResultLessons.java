package tepidarium.season;

import static tepidarium.season.LessonWords.format;
import static tepidarium.season.LessonWords.found;
import static tepidarium.season.LessonWords.heat;
import static tepidarium.season.LessonWords.others;
import static tepidarium.season.LessonWords.percent;
import static tepidarium.season.LessonWords.points;

import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What became of the seeds and what comparisons came to, by the rules of {@link Lessons}. */
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
        one -> (double) discarded(one) / Math.max(1, one.lookedAt());
    List<SowingResult> found = found(sowings, one -> share.applyAsDouble(one) > MANY_CULLED, share);
    if (found.isEmpty()) {
      return null;
    }
    SowingResult worst = found.get(0);
    SowingResult.CulledFor most =
        worst.culledFor().stream()
            .filter(line -> !line.reason().equals("taken"))
            .findFirst()
            .orElseThrow();
    String why =
        most.reason().equals("mould")
            ? (most.seeds() == discarded(worst) ? "all" : most.seeds() + " of them") + " for mould"
            : format("most often as \"%s\" (%d)", most.reason(), most.seeds());
    return new Lesson(
        "culled",
        format(
                "%d of %d seeds of %s were discarded, %s.",
                discarded(worst), worst.lookedAt(), worst.name(), why)
            + (found.size() == 1
                ? ""
                : format(
                    " More than %s were discarded of %s too.",
                    percent(MANY_CULLED), others(found.size()))),
        share.applyAsDouble(worst));
  }

  static @Nullable Lesson apart(List<SowingPair> pairs) {
    List<SowingPair> found =
        found(
            pairs, pair -> pair.difference().apart(), pair -> Math.abs(pair.difference().value()));
    if (found.isEmpty()) {
      return null;
    }
    SowingPair most = found.get(0);
    boolean first = most.difference().value() > 0;
    String chance =
        pairs.size() == 1
            ? ""
            : format(
                " Of %d pairs compared, %d differ so; about one in twenty would by chance alone.",
                pairs.size(), found.size());
    return new Lesson(
        "sowings",
        format(
                "%s did better than %s by %s, by more than luck alone would make likely.%s",
                first ? most.firstName() : most.secondName(),
                first ? most.secondName() : most.firstName(),
                points(most.difference()),
                most.uneven()
                    ? format(
                        " They were not watched for equally long: %.0f and %.0f days.",
                        first ? most.firstDays() : most.secondDays(),
                        first ? most.secondDays() : most.firstDays())
                    : " The counts do not say what made the difference.")
            + chance,
        Math.abs(most.difference().value()));
  }

  /** Of the pair with the most seeds, which had the best chance to tell. */
  static @Nullable Lesson undecided(List<SowingPair> pairs) {
    SowingPair pair =
        pairs.stream().filter(one -> !one.difference().apart()).findFirst().orElse(null);
    if (pair == null) {
      return null;
    }
    Long needed = pair.seedsEach();
    String seeds =
        needed == null
            ? "The same part of both germinated, which is no proof that they are alike."
            : format(
                "To find a difference of this size in four of five trials, each would have needed"
                    + " about %d seeds; the smaller one had %d.",
                needed, pair.fewestSeeds());
    return new Lesson(
        "undecided",
        format("%s and %s cannot be told apart. ", pair.firstName(), pair.secondName()) + seeds,
        0);
  }

  static @Nullable Lesson sources(@Nullable SourceComparison sources) {
    if (sources == null) {
      return null;
    }
    ToDoubleFunction<SourceComparison.Pair> weight = pair -> gainShare(sources, pair);
    List<SourceComparison.Pair> found =
        found(sources.pairs(), SourceComparison.Pair::differs, weight);
    if (found.isEmpty()) {
      return null;
    }
    SourceComparison.Pair most = found.get(0);
    return new Lesson("sources", sourceWords(most), gainShare(sources, most));
  }

  private static String sourceWords(SourceComparison.Pair pair) {
    Interval gain = Objects.requireNonNull(pair.degreeHoursPerDay());
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

  /** The difference against the warmer of the two. */
  private static double gainShare(SourceComparison sources, SourceComparison.Pair pair) {
    Interval gain = pair.degreeHoursPerDay();
    double warmer =
        sources.sources().stream()
            .filter(one -> one.name().equals(pair.first()) || one.name().equals(pair.second()))
            .map(SourceComparison.Source::degreeHoursPerDay)
            .flatMap(Stream::ofNullable)
            .mapToDouble(Interval::value)
            .max()
            .orElse(0);
    return gain == null || warmer <= 0 ? 0 : Math.min(1, Math.abs(gain.value()) / warmer);
  }

  private record Changed(EarlierSeason season, EarlierSeason.Species species) {}

  static @Nullable Lesson earlier(List<EarlierSeason> earlier) {
    List<Changed> all =
        earlier.stream()
            .flatMap(season -> season.species().stream().map(one -> new Changed(season, one)))
            .toList();
    List<Changed> found =
        found(
            all,
            one -> one.species().difference().apart(),
            one -> Math.abs(one.species().difference().value()));
    if (found.isEmpty()) {
      return null;
    }
    Changed most = found.get(0);
    EarlierSeason.Species species = most.species();
    return new Lesson(
        "earlier",
        format(
            "%s did %s than in %s by %s: %d of %d now, %d of %d then. The counts do not say what"
                + " made the difference.",
            species.name(),
            species.difference().value() > 0 ? "better" : "worse",
            most.season().name(),
            points(species.difference()),
            species.now().germinated(),
            species.now().sown(),
            species.then().germinated(),
            species.then().sown()),
        Math.abs(species.difference().value()));
  }
}
