package tepidarium.season;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.BenchFinding;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.stats.GroupMeans.Permutation;

/**
 * A comparison of heat sources by {@link HeatBench}, with one base temperature for all.
 *
 * @param base base temperature, °C
 * @param ceiling ceiling temperature, °C; null if none
 * @param verdict result in one sentence
 */
public record SourceComparison(
    double base, @Nullable Double ceiling, List<Source> sources, List<Pair> pairs, String verdict) {
  /** One heat source, with the mean heat per day of its containers, °C·h per day. */
  public record Source(
      String name,
      List<String> containers,
      int hours,
      @Nullable EstimateWithLimits degreeHoursPerDay) {}

  /**
   * Two heat sources, compared over the hours measured in both; the difference is first less
   * second.
   *
   * @param finding name of a {@link BenchFinding}
   * @param sensorErrorPerDay possible error of the heat difference due to the sensors, ±°C·h per
   *     day; null in a report stored by an earlier version
   * @param permutationP p of the permutation test over containers; null if there is none
   * @param leastPermutationP smallest p that so many containers can give; null if there is none
   */
  public record Pair(
      String first,
      String second,
      int hours,
      @Nullable EstimateWithLimits degreeHoursPerDay,
      String finding,
      @Nullable Double sensorErrorPerDay,
      @Nullable Double permutationP,
      @Nullable Double leastPermutationP,
      String words) {
    boolean differs() {
      return finding.equals(word(BenchFinding.MORE)) || finding.equals(word(BenchFinding.LESS));
    }
  }

  public SourceComparison {
    sources = List.copyOf(sources);
    pairs = List.copyOf(pairs);
  }

  /** Converts a comparison of the heat bench. */
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
        EstimateWithLimits.of(side.figures().degreeHoursPerDay()));
  }

  private static Pair pair(HeatBench.Pair pair) {
    Permutation permutation = pair.permutation();
    return new Pair(
        pair.first().side().name(),
        pair.second().side().name(),
        pair.hours(),
        EstimateWithLimits.of(pair.figures().degreeHoursPerDay()),
        word(pair.finding()),
        pair.sensorErrorPerDay(),
        permutation == null ? null : permutation.p(),
        permutation == null ? null : permutation.leastP(),
        BenchFinding.words(pair));
  }

  private static String word(BenchFinding finding) {
    return finding.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
