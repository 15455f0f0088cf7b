package tepidarium.germination;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.HeatRule;

/** Fits germination against heat to the counts of sowings. Caches the fits. Thread-safe. */
public final class HeatFits {
  private static final int MAX_FITS = 200;

  private final Cache<SowingCounts, SowingFit> sowings =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_FITS).build();
  private final Cache<SpeciesCounts, SpeciesFit> species =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_FITS).build();

  private record SowingCounts(
      double baseC, List<HeatCounts.Row> rows, List<List<HeatCounts.Row>> earlier) {}

  /**
   * Cache key of a species. The rows above the base of the rule determine the rows above any other
   * base.
   */
  private record SpeciesCounts(
      HeatRule rule, @Nullable Double optimumC, List<HeatCounts.Row> rows) {}

  /** The fit of one sowing, and how much heat its remaining seeds need. */
  public record SowingFit(HeatFit fit, HeatOutlook.Needs needs) {}

  /** The fits of all sowings of a species: heat against days, and two estimates of the base. */
  public record SpeciesFit(
      HeatAgainstClock comparison, BaseTemperature byLikelihood, BaseByRate byRate) {}

  /**
   * Fits one sowing.
   *
   * @param earlier sowings of the same species that were sown before it
   */
  public SowingFit sowing(double baseC, HeatCounts counts, List<HeatCounts> earlier) {
    return sowings.get(
        new SowingCounts(
            baseC, counts.above(baseC), earlier.stream().map(past -> past.above(baseC)).toList()),
        HeatFits::fit);
  }

  private static SowingFit fit(SowingCounts counts) {
    return new SowingFit(
        HeatFit.of(counts.baseC(), counts.rows()),
        HeatOutlook.needs(counts.rows(), HeatFit.prior(counts.earlier())));
  }

  /**
   * Fits all sowings of a species together.
   *
   * @param optimumC optimum temperature of the species, °C; null if it is not known
   */
  public SpeciesFit species(HeatRule rule, HeatCounts counts, @Nullable Double optimumC) {
    return species.get(
        new SpeciesCounts(rule, optimumC, counts.above(rule.baseC())),
        any ->
            new SpeciesFit(
                HeatAgainstClock.of(rule.baseC(), counts),
                BaseTemperature.of(counts),
                BaseByRate.of(counts, optimumC)));
  }
}
