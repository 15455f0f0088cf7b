package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigInteger;
import java.util.Arrays;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FisherExactTest {
  private static final int MAX_SEEDS = 40;
  private static final int ALL_TABLES = 380_070;

  private static double p(int x1, int n1, int x2, int n2) {
    return new ProportionDifference(new Proportion(x1, n1), new Proportion(x2, n2)).fisherP();
  }

  /** Tables whose two tails hold equally probable tables; 502/10005 and 1 in exact fractions. */
  @ParameterizedTest
  @CsvSource({"13, 20, 2, 10, 0.0501749125", "2, 5, 0, 2, 1"})
  void equallyProbableTablesInTheOtherTailCount(int x1, int n1, int x2, int n2, double exact) {
    assertEquals(exact, p(x1, n1, x2, n2), 1e-7);
  }

  /**
   * Every table with 1 to 40 trials in each group and with hits and misses, the smaller group
   * first, against whole numbers: the tables in C(n1, k) · C(n2, m − k) ways.
   */
  @Test
  void everyTableUpTo40By40AgreesWithWholeNumbers() {
    BigInteger[][] choose = binomials();
    int tables = 0;
    for (int n1 = 1; n1 <= MAX_SEEDS; n1++) {
      for (int n2 = n1; n2 <= MAX_SEEDS; n2++) {
        for (int hits = 1; hits < n1 + n2; hits++) {
          tables += agree(choose, n1, n2, hits);
        }
      }
    }
    assertEquals(ALL_TABLES, tables);
  }

  private static int agree(BigInteger[][] choose, int n1, int n2, int hits) {
    int least = Math.max(0, hits - n2);
    int most = Math.min(n1, hits);
    BigInteger[] ways = new BigInteger[most - least + 1];
    Arrays.setAll(ways, i -> choose[n1][least + i].multiply(choose[n2][hits - least - i]));
    BigInteger[] sorted = ways.clone();
    Arrays.sort(sorted);
    double all = choose[n1 + n2][hits].doubleValue();
    BigInteger sum = BigInteger.ZERO;
    for (int at = 0; at < sorted.length; ) {
      BigInteger same = sorted[at];
      while (at < sorted.length && sorted[at].equals(same)) {
        sum = sum.add(same);
        at++;
      }
      double exact = sum.doubleValue() / all;
      for (int i = 0; i < ways.length; i++) {
        if (ways[i].equals(same)) {
          int x1 = least + i;
          double found = p(x1, n1, hits - x1, n2);
          if (!(Math.abs(found - exact) <= 1e-11 * exact)) {
            Assertions.fail(
                x1
                    + "/"
                    + n1
                    + " against "
                    + (hits - x1)
                    + "/"
                    + n2
                    + ": "
                    + found
                    + ", exact "
                    + exact);
          }
        }
      }
    }
    return ways.length;
  }

  private static BigInteger[][] binomials() {
    BigInteger[][] choose = new BigInteger[2 * MAX_SEEDS + 1][];
    for (int n = 0; n <= 2 * MAX_SEEDS; n++) {
      choose[n] = new BigInteger[n + 1];
      choose[n][0] = BigInteger.ONE;
      choose[n][n] = BigInteger.ONE;
      for (int k = 1; k < n; k++) {
        choose[n][k] = choose[n - 1][k - 1].add(choose[n - 1][k]);
      }
    }
    return choose;
  }

  /** The difference is 1.96 standard errors, where the normal test gives 0.05. */
  @Test
  void aMillionTrialsAreNearTheNormalTest() {
    assertEquals(0.05, p(500_000, 1_000_000, 501_386, 1_000_000), 2e-4);
    assertEquals(0, p(0, 1_000_000, 1_000_000, 1_000_000));
    assertTrue(p(10, 1_000_000, 12, 1_000_000) > 0.8);
  }
}
