package tepidarium.web.sums;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.SeedsNeeded;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.Dispersion;
import tepidarium.stats.GroupMeans;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.IntervalFit.Estimate;
import tepidarium.stats.IntervalFit.Parameter;
import tepidarium.stats.MoistAir;
import tepidarium.stats.NoFit;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;
import tepidarium.stats.Replicates;
import tepidarium.stats.Stratified;
import tepidarium.web.JsonValues;

/** The JSON requests and responses of the calculations. */
public final class SumsJson {
  private SumsJson() {}

  record CountRequest(@Nullable Double germinated, @Nullable Double sown) {}

  record DifferenceRequest(@Nullable CountRequest a, @Nullable CountRequest b) {}

  record SeedsRequest(
      @Nullable Double wanted,
      @Nullable Double confidence,
      @Nullable Double fraction,
      @Nullable Double germinated,
      @Nullable Double sown,
      @Nullable List<@Nullable CountRequest> lots) {}

  record IntervalRequest(@Nullable Double from, @Nullable Double to, @Nullable Double count) {}

  record GerminationRequest(@Nullable List<@Nullable IntervalRequest> intervals) {}

  record AirRequest(@Nullable Double temperature, @Nullable Double humidity) {}

  record Fraction(double fraction, List<Double> wilson, List<Double> exact) {
    static Fraction of(Proportion p) {
      return new Fraction(p.fraction(), JsonValues.pair(p.wilson()), JsonValues.pair(p.exact()));
    }
  }

  public record Difference(
      double difference,
      List<Double> newcombe,
      double fisherP,
      @Nullable Long seedsEachForPower80) {
    public static Difference of(ProportionDifference d) {
      OptionalLong seeds = d.trialsEachForPower80();
      return new Difference(
          d.difference(),
          JsonValues.pair(d.newcombe()),
          d.fisherP(),
          seeds.isPresent() ? seeds.getAsLong() : null);
    }
  }

  record StratifiedRequest(@Nullable List<@Nullable DifferenceRequest> strata) {}

  record ReplicatesRequest(@Nullable List<@Nullable CountRequest> replicates) {}

  public record Heterogeneity(double chiSquare, int degreesOfFreedom, double p) {}

  public record PerStratum(double difference, @Nullable List<Double> interval) {}

  public record StratifiedAnswer(
      int strata,
      double difference,
      List<Double> differenceInterval,
      @Nullable Double oddsRatio,
      @Nullable List<Double> oddsRatioInterval,
      double chiSquare,
      double p,
      @Nullable Double exactP,
      @Nullable Heterogeneity heterogeneity,
      PerStratum perStratum,
      @Nullable Double flipsP,
      double leastFlipsP) {
    public static StratifiedAnswer of(Stratified all) {
      ConfidenceInterval ratio = all.oddsRatioLimits();
      Stratified.Heterogeneity apart = all.heterogeneity();
      GroupMeans.Difference each = all.perStratum();
      Stratified.Flips flips = all.flips();
      return new StratifiedAnswer(
          all.strata().size(),
          all.difference(),
          JsonValues.pair(all.differenceLimits()),
          JsonValues.finite(all.oddsRatio()),
          ratio == null ? null : JsonValues.pair(ratio),
          all.chiSquare(),
          all.p(),
          all.exactP(),
          apart == null
              ? null
              : new Heterogeneity(apart.chiSquare(), apart.degreesOfFreedom(), apart.p()),
          new PerStratum(
              each == null ? all.strata().get(0).difference() : each.value(),
              each == null ? null : List.of(each.low(), each.high())),
          flips.p(),
          flips.leastP());
    }
  }

  public record ReplicatesAnswer(
      int replicates,
      int germinated,
      int sown,
      double fraction,
      List<Double> interval,
      double chiSquare,
      int degreesOfFreedom,
      double dispersion,
      double p,
      boolean exact,
      boolean differ,
      double range,
      @Nullable Double toleratedRange) {
    public static ReplicatesAnswer of(Replicates all) {
      Dispersion dispersion = all.dispersion();
      Replicates.Chance chance = all.chance();
      return new ReplicatesAnswer(
          all.counts().size(),
          all.pooled().hits(),
          all.pooled().trials(),
          all.pooled().fraction(),
          JsonValues.pair(all.interval()),
          dispersion.chiSquare(),
          dispersion.degreesOfFreedom(),
          dispersion.factor(),
          chance.p(),
          chance.exact(),
          chance.p() < Replicates.LEVEL,
          all.range(),
          all.toleratedRange());
    }
  }

  record Seeds(long seeds, String assumption) {
    static final String KNOWN =
        "Each seed germinates with exactly this probability, independently of the others.";
    static final String PAST =
        "The next lot is like the past one; its fraction is as uncertain as that result leaves it"
            + " (beta-binomial, Jeffreys' prior).";
    static final String LOTS =
        "The next lot is one more of the same kind; lots differ among themselves as these leave it"
            + " uncertain (beta-binomial, summed over mean and spread).";

    static Seeds of(OptionalLong seeds, String assumption) {
      return new Seeds(
          seeds.orElseThrow(
              () ->
                  new InvalidInput(
                      "more than "
                          + SeedsNeeded.MAX_SEEDS
                          + " seeds would be needed: lower the number wanted or the confidence",
                      InputRule.SEEDS_NEEDED.with(SeedsNeeded.MAX_SEEDS))),
          assumption);
    }
  }

  /**
   * A fitted curve. The median and the interval of μ are null if the median is too far beyond the
   * observed time.
   */
  public record Fit(
      String model,
      boolean identified,
      @Nullable String reason,
      @Nullable String reasonCode,
      @Nullable Double mu,
      @Nullable Double sigma,
      @Nullable Double finalFraction,
      @Nullable Double logLikelihood,
      @Nullable Double aic,
      @Nullable Double median,
      @Nullable String medianReason,
      @Nullable List<@Nullable Double> muInterval,
      @Nullable List<@Nullable Double> sigmaInterval,
      @Nullable List<@Nullable Double> finalFractionInterval) {
    static final String BEYOND_WORDS =
        "half would germinate only after more than twice the time of the last check: this is too far"
            + " beyond the data for an estimate";

    public static Fit of(IntervalFit fit) {
      if (!fit.identified()) {
        NoFit reason = Objects.requireNonNull(fit.reason());
        return new Fit(
            fit.model().word(),
            false,
            reason.words(),
            reason.key(),
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null);
      }
      boolean beyond = fit.medianBeyond();
      Estimate estimate = fit.estimate();
      return new Fit(
          fit.model().word(),
          true,
          null,
          null,
          estimate.mu(),
          estimate.sigma(),
          estimate.finalFraction(),
          estimate.logLikelihood(),
          fit.aic(),
          beyond ? null : JsonValues.finite(fit.median()),
          beyond ? BEYOND_WORDS : null,
          beyond ? null : JsonValues.ends(fit.interval(Parameter.MU)),
          JsonValues.ends(fit.interval(Parameter.SIGMA)),
          fit.model().withFinalFraction()
              ? JsonValues.ends(fit.interval(Parameter.FINAL_FRACTION))
              : null);
    }
  }

  public record Germination(
      int seeds,
      int germinated,
      @Nullable String best,
      @Nullable List<Double> finalFractionInterval,
      List<Fit> fits) {
    public static Germination of(List<Censored> rows) {
      List<IntervalFit> fits = IntervalFit.all(rows);
      return of(rows, fits, IntervalFit.finalFraction(fits).orElse(null));
    }

    public static Germination of(
        List<Censored> rows, List<IntervalFit> fits, @Nullable ConfidenceInterval finalFraction) {
      return new Germination(
          rows.stream().mapToInt(Censored::count).sum(),
          rows.stream().filter(row -> !row.open()).mapToInt(Censored::count).sum(),
          IntervalFit.best(fits).map(fit -> fit.model().word()).orElse(null),
          finalFraction == null ? null : JsonValues.pair(finalFraction),
          fits.stream().map(Fit::of).toList());
    }
  }

  record Air(
      double saturationPressure, double vapourPressure, double deficit, @Nullable Double dewPoint) {
    static Air of(MoistAir air) {
      OptionalDouble dewPoint = air.dewPointC();
      return new Air(
          air.saturationPressureKpa(),
          air.vapourPressureKpa(),
          air.deficitKpa(),
          dewPoint.isPresent() ? dewPoint.getAsDouble() : null);
    }
  }
}
