package tepidarium.season;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.BenchFinding;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;

/**
 * What warmed the containers, compared as the heat bench does, with one base for all.
 *
 * @param verdict in a sentence
 */
public record SourceComparison(
    double base, @Nullable Double ceiling, List<Source> sources, List<Pair> pairs, String verdict) {
  /** One heat source: the heat of a day of its containers together, °C·h a day. */
  public record Source(
      String name, List<String> containers, int hours, @Nullable Interval degreeHoursPerDay) {}

  /**
   * Two of them, first less second, over the hours of both.
   *
   * @param finding a word of {@link BenchFinding}
   */
  public record Pair(
      String first,
      String second,
      int hours,
      @Nullable Interval degreeHoursPerDay,
      String finding,
      String words) {
    boolean differs() {
      return finding.equals(word(BenchFinding.MORE)) || finding.equals(word(BenchFinding.LESS));
    }
  }

  public SourceComparison {
    sources = List.copyOf(sources);
    pairs = List.copyOf(pairs);
  }

  /** What the bench comparison. */
  public static SourceComparison of(HeatRule rule, HeatBench.Comparison comparison) {
    return new SourceComparison(
        rule.baseC(),
        rule.ceilingC(),
        comparison.sides().stream().map(SourceComparison::source).toList(),
        comparison.pairs().stream().map(SourceComparison::pair).toList(),
        BenchFinding.words(comparison));
  }

  private static Source source(HeatBench.ComparedSide side) {
    return new Source(
        side.side().name(),
        side.side().places().stream().map(BenchPlace::name).toList(),
        side.hours(),
        Interval.of(side.figures().degreeHoursPerDay()));
  }

  private static Pair pair(HeatBench.Pair pair) {
    return new Pair(
        pair.first().side().name(),
        pair.second().side().name(),
        pair.hours(),
        Interval.of(pair.figures().degreeHoursPerDay()),
        word(pair.finding()),
        BenchFinding.words(pair));
  }

  private static String word(BenchFinding finding) {
    return finding.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
