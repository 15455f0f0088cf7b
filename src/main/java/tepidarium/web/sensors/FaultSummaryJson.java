package tepidarium.web.sensors;

import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.FaultKind;
import tepidarium.rollup.FaultHistory;

/**
 * The JSON form of a sensor's faults of the last 7 days, without saturated humidity and
 * condensation, which are usual in a moist container.
 *
 * @param newestKind null if there are none
 * @param newestFrom null if there are none
 */
record FaultSummaryJson(
    int count, int ongoing, @Nullable String newestKind, @Nullable Instant newestFrom) {
  static final Duration LENGTH = Duration.ofDays(7);

  private static final Set<FaultKind> USUAL =
      EnumSet.of(FaultKind.SATURATED_HUMIDITY, FaultKind.CONDENSATION);

  /** Summarises faults, newest first. */
  static FaultSummaryJson of(List<FaultHistory.Listed> faults) {
    List<FaultHistory.Listed> unusual =
        faults.stream().filter(one -> !USUAL.contains(one.fault().kind())).toList();
    int ongoing = (int) unusual.stream().filter(FaultHistory.Listed::ongoing).count();
    return unusual.isEmpty()
        ? new FaultSummaryJson(0, 0, null, null)
        : new FaultSummaryJson(
            unusual.size(),
            ongoing,
            unusual.get(0).fault().kind().key(),
            unusual.get(0).fault().from());
  }
}
