package tepidarium.germination;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.Censored;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.IntervalFit;
import tepidarium.stats.TimeFamily;
import tepidarium.stats.TimeModel;

/** Fits germination curves over time to the counts of sowings. Caches the fits. Thread-safe. */
public final class GerminationFits {
  private static final int MAX_FITS = 1_000;

  private final Cache<Counts, Fits> fits =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_FITS).build();
  private final Cache<FamilyCounts, IntervalFit> earlierFits =
      Caffeine.newBuilder().executor(Runnable::run).maximumSize(MAX_FITS).build();

  private record Counts(
      GerminationData data, List<Double> checkDays, List<GerminationData> earlier) {}

  private record FamilyCounts(TimeFamily family, List<Censored> intervals) {}

  /**
   * The fits of one sowing.
   *
   * @param curves fits of all models, including those that are not identified
   * @param finalFraction model-averaged interval of the final fraction; null if no model identifies
   *     it
   * @param prospect prospect of the remaining seeds; null if none remain or the counts do not
   *     suffice
   */
  public record Fits(
      List<IntervalFit> curves,
      @Nullable ConfidenceInterval finalFraction,
      @Nullable Prospect prospect) {
    public Fits {
      curves = List.copyOf(curves);
    }
  }

  /**
   * Fits the curves of a sowing.
   *
   * @param earlier sowings of the same species that were sown before it
   */
  public Fits of(SowingTimeline timeline, List<SowingTimeline> earlier) {
    return fits.get(
        new Counts(
            timeline.data(),
            timeline.checkDays(),
            earlier.stream().map(SowingTimeline::data).toList()),
        this::fit);
  }

  private Fits fit(Counts counts) {
    List<IntervalFit> curves = IntervalFit.all(counts.data().intervals());
    return new Fits(
        curves,
        IntervalFit.finalFraction(curves).orElse(null),
        Prospect.of(
                counts.data(), counts.checkDays(), family -> earlierFits(counts.earlier(), family))
            .orElse(null));
  }

  private List<IntervalFit> earlierFits(List<GerminationData> sowings, TimeFamily family) {
    return sowings.stream()
        .map(sowing -> new FamilyCounts(family, sowing.intervals()))
        .map(counts -> earlierFits.get(counts, GerminationFits::withFinalFraction))
        .toList();
  }

  private static IntervalFit withFinalFraction(FamilyCounts counts) {
    return IntervalFit.of(new TimeModel(counts.family(), true), counts.intervals());
  }
}
