package tepidarium.rollup;

import java.util.List;
import java.util.stream.Stream;
import tepidarium.fault.FaultKind;
import tepidarium.reading.Quantity;

/**
 * What a figure left out because of faults.
 *
 * @param hours time that the container's readings would cover and do not cover without these
 *     readings, h; 0 where another sensor filled the gap
 * @param stretches number of faulty stretches left out, wholly or in part
 * @param kinds the kinds of faults
 */
public record LeftOut(Quantity quantity, double hours, int stretches, List<FaultKind> kinds) {
  public LeftOut {
    kinds = List.copyOf(kinds);
  }

  /** Adds what was left out of another container, of the same quantity. */
  public LeftOut plus(LeftOut other) {
    List<FaultKind> all =
        Stream.concat(kinds.stream(), other.kinds.stream()).distinct().sorted().toList();
    return new LeftOut(quantity, hours + other.hours, stretches + other.stretches, all);
  }
}
