package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GerminationData.Row;

/**
 * The bounds of the time by which half of the sown seeds had germinated, against every way in which
 * up to seven seeds can have germinated within what the checks saw.
 */
class HalfOfSownProperties {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  @Property(tries = 400)
  void theBoundsAreThoseOfAllAssignments(@ForAll long seed) {
    Random random = new Random(seed);
    List<Row> rows = new ArrayList<>();
    int sown = 1 + random.nextInt(7);
    for (int i = 0; i < sown; i++) {
      double from = random.nextInt(5);
      boolean found = random.nextInt(3) > 0;
      Fate fate = found ? Fate.GERMINATED : random.nextBoolean() ? Fate.CULLED : Fate.REMAINING;
      Double to = found ? from + 1 + random.nextInt(4) : null;
      rows.add(new Row(from, to, 1, fate, new GroupId(1, 1)));
    }
    double[] bounds = {NEVER, 0};
    assign(rows, new double[sown], 0, bounds);
    List<Double> told = new GerminationData(sown, rows).halfOfSownBetween();
    if (bounds[1] == NEVER) {
      assertNull(told, "half need not have germinated: " + rows);
    } else {
      assertEquals(List.of(bounds[0], bounds[1]), told, rows.toString());
    }
  }

  /** Each seed germinates at either end of what was seen of it; never is the end of an open one. */
  private static void assign(List<Row> rows, double[] times, int next, double[] bounds) {
    if (next == times.length) {
      double[] sorted = times.clone();
      Arrays.sort(sorted);
      double half = sorted[(sorted.length + 1) / 2 - 1];
      bounds[0] = Math.min(bounds[0], half);
      bounds[1] = Math.max(bounds[1], half);
      return;
    }
    Double to = rows.get(next).to();
    for (double time : new double[] {rows.get(next).from(), to == null ? NEVER : to}) {
      times[next] = time;
      assign(rows, times, next + 1, bounds);
    }
  }
}
