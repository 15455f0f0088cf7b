package tepidarium.web.heatbench;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.BenchFigures;
import tepidarium.heat.BenchFinding;
import tepidarium.heat.BenchPlace;
import tepidarium.heat.Excursion;
import tepidarium.heat.HeatBench;
import tepidarium.heat.HeatRule;
import tepidarium.heat.Limit;
import tepidarium.reading.Span;
import tepidarium.rollup.LeftOut;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.web.JsonValues;
import tepidarium.web.LeftOutJson;

/** The JSON form of a comparison of containers or heat sources. */
record HeatBenchJson(
    Instant from,
    Instant to,
    String timeZone,
    double base,
    @Nullable Double ceiling,
    String by,
    List<Compared> compared,
    List<Pair> pairs,
    String verdict) {

  /** A figure with its 95 % interval; the ends are null if they cannot be estimated. */
  record Interval(double value, @Nullable Double low, @Nullable Double high) {
    static @Nullable Interval of(@Nullable Estimate estimate) {
      return estimate == null
          ? null
          : new Interval(estimate.value(), estimate.low(), estimate.high());
    }

    static @Nullable Interval of(@Nullable Difference difference) {
      return difference == null
          ? null
          : new Interval(difference.value(), difference.low(), difference.high());
    }
  }

  record Measures(
      @Nullable Interval degreeHoursPerDay,
      @Nullable Interval fractionInside,
      @Nullable Interval meanTemperature,
      @Nullable Interval nightFloor,
      @Nullable Interval dailySwing) {
    static Measures of(BenchFigures figures) {
      return new Measures(
          Interval.of(figures.degreeHoursPerDay()),
          Interval.of(figures.fractionInside()),
          Interval.of(figures.meanC()),
          Interval.of(figures.nightFloorC()),
          Interval.of(figures.dailySwingC()));
    }
  }

  record Recovery(int openings, int seen, @Nullable Interval minutes) {}

  record Longest(String kind, Instant start, @Nullable Instant end, double hours, double worst) {
    static @Nullable Longest of(BenchPlace.@Nullable Longest longest) {
      if (longest == null) {
        return null;
      }
      Excursion excursion = longest.excursion();
      return new Longest(
          longest.side() == Limit.Side.LOW ? "cold" : "hot",
          excursion.start(),
          excursion.end(),
          excursion.hours(),
          excursion.worst());
    }
  }

  record Compared(
      String key,
      String name,
      List<String> containers,
      List<String> leftOut,
      int coveredHours,
      List<LeftOutJson> faultsLeftOut,
      Measures measures,
      @Nullable Interval spread,
      @Nullable Double variation,
      Recovery recovery,
      @Nullable Longest longestExcursion,
      List<@Nullable Double> profile) {
    static Compared of(HeatBench.ComparedSide side, List<LeftOut> faultsLeftOut) {
      return new Compared(
          side.side().key(),
          side.side().name(),
          ids(side.side().places()),
          ids(side.leftOut()),
          side.hours(),
          LeftOutJson.of(faultsLeftOut),
          Measures.of(side.figures()),
          Interval.of(side.spreadC()),
          known(side.variationC()),
          new Recovery(
              side.recoveries().openings(),
              side.recoveries().seen(),
              Interval.of(side.recoveries().minutes())),
          Longest.of(side.longest()),
          known(side.profileC()));
    }
  }

  record Pair(
      String first,
      String second,
      int pairedHours,
      int blocks,
      Measures differences,
      @Nullable Interval recoveryMinutes,
      double sensorError,
      @Nullable Interval betweenContainers,
      @Nullable Double permutationP,
      @Nullable Double leastPermutationP,
      String finding,
      String words) {
    static Pair of(HeatBench.Pair pair) {
      var permutation = pair.permutation();
      return new Pair(
          pair.first().side().key(),
          pair.second().side().key(),
          pair.hours(),
          pair.days(),
          Measures.of(pair.figures()),
          Interval.of(pair.recoveryMinutes()),
          pair.sensorErrorPerDay(),
          Interval.of(pair.between()),
          permutation == null ? null : permutation.p(),
          permutation == null ? null : permutation.leastP(),
          JsonValues.hyphenated(pair.finding()),
          BenchFinding.words(pair));
    }
  }

  private static List<String> ids(List<BenchPlace> places) {
    return places.stream().map(place -> place.id().value()).toList();
  }

  private static List<@Nullable Double> known(double[] values) {
    List<@Nullable Double> known = new ArrayList<>();
    for (double value : values) {
      known.add(known(value));
    }
    return known;
  }

  private static @Nullable Double known(double value) {
    return Double.isNaN(value) ? null : value;
  }

  /**
   * Creates it.
   *
   * @param faultsLeftOut by the key of a side: what its temperatures left out because of faults
   */
  static HeatBenchJson of(
      Span span,
      ZoneId zone,
      HeatRule rule,
      boolean sources,
      HeatBench.Comparison comparison,
      Map<String, List<LeftOut>> faultsLeftOut) {
    return new HeatBenchJson(
        span.from(),
        span.to(),
        zone.getId(),
        rule.baseC(),
        rule.ceilingC(),
        sources ? "sources" : "containers",
        comparison.sides().stream()
            .map(
                side -> Compared.of(side, faultsLeftOut.getOrDefault(side.side().key(), List.of())))
            .toList(),
        comparison.pairs().stream().map(Pair::of).toList(),
        BenchFinding.words(comparison));
  }
}
