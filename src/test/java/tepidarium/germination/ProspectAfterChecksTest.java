package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.germination.GerminationData.Fate;
import tepidarium.germination.GerminationData.Row;

class ProspectAfterChecksTest {
  private static Row found(double from, double to, int count) {
    return new Row(from, to, count, Fate.GERMINATED, new GroupId(1, 1));
  }

  /**
   * Of 50 seeds that were followed to day 40, 40 germinated in the first four weeks; 50 more in
   * another box were never looked at. They are the same seed: about 50 × 40 / 50 = 40 will come.
   */
  @Test
  void aGroupThatNobodyOpenedIsExpectedToGerminateLikeTheOther() {
    GerminationData data =
        new GerminationData(
            100,
            List.of(
                found(0, 7, 3),
                found(7, 14, 17),
                found(14, 21, 14),
                found(21, 28, 6),
                new Row(40, null, 10, Fate.REMAINING, new GroupId(1, 1)),
                new Row(0, null, 50, Fate.REMAINING, new GroupId(1, 2))));
    List<Double> checks = List.of(7.0, 14.0, 21.0, 28.0, 40.0);
    Prospect told = Prospect.of(data, checks, family -> List.of()).orElseThrow();
    assertEquals(40, told.expectedMore(), 2, told.toString());
  }
}
