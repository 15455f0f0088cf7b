package tepidarium.heat;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * The data of one container for the heat bench.
 *
 * @param hours its hours, on the same {@link LocalHours} as those of all others
 * @param recoveries recoveries after openings that cooled it
 * @param longest its longest excursion beyond either limit; null if there is none
 */
public record BenchPlace(
    ContainerId id,
    String name,
    HeatHours hours,
    List<Recovery> recoveries,
    @Nullable Longest longest) {

  /** The longest excursion and its side of the band. */
  public record Longest(Limit.Side side, Excursion excursion) {}

  public BenchPlace {
    recoveries = List.copyOf(recoveries);
  }
}
