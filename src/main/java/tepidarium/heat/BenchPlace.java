package tepidarium.heat;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * One container as the heat bench looks at it.
 *
 * @param hours its hours, on the same {@link LocalHours} as those of all others
 * @param recoveries after the openings of the span that cooled it
 * @param longest its longest excursion to either side; null for none
 */
public record BenchPlace(
    ContainerId id,
    String name,
    HeatHours hours,
    List<Recovery> recoveries,
    @Nullable Longest longest) {

  /** The longest excursion, and on which side of the band. */
  public record Longest(Limit.Side side, Excursion excursion) {}

  public BenchPlace {
    recoveries = List.copyOf(recoveries);
  }
}
