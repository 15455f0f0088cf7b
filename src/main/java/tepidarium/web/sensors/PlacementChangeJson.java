package tepidarium.web.sensors;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.rollup.ContainerHistory;

/**
 * The JSON form of a changed placement.
 *
 * @param others the other sensors whose placement was changed too
 * @param containers the containers whose figures follow, before and after
 */
record PlacementChangeJson(
    SensorJson sensor, List<SensorJson> others, List<ContainerChange> containers) {

  /** The figures of one container; null while no sensor was ever in it. */
  record ContainerChange(
      String container, String name, @Nullable Figures before, @Nullable Figures after) {}

  /**
   * Figures from the first reading until now.
   *
   * @param hoursInBand covered time between both temperature limits, h
   * @param shareInBand its share of the covered time, 0 to 1; null if no time is covered
   */
  record Figures(
      double degreeHours,
      double coveredHours,
      double gapHours,
      double hoursInBand,
      @Nullable Double shareInBand) {
    private static final double MS_PER_HOUR = 3_600_000;

    static Figures of(ContainerHistory.TemperatureTotals totals) {
      double covered = totals.heat().coveredHours();
      double outside = totals.cold().outsideMs() + totals.hot().outsideMs();
      double inside = Math.max(0, covered - outside / MS_PER_HOUR);
      return new Figures(
          totals.heat().degreeHours(),
          covered,
          totals.heat().gapHours(),
          inside,
          covered == 0 ? null : Math.min(1, inside / covered));
    }
  }
}
