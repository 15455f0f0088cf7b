package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class MedianTest {
  @Test
  void theMiddleValueOrTheMeanOfTheTwoMiddleOnes() {
    assertEquals(Double.NaN, Median.of());
    assertEquals(7, Median.of(7));
    assertEquals(2, Median.of(3, 1, 2));
    assertEquals(2.5, Median.of(4, 1, 3, 2));
  }

  @Test
  void theValuesKeepTheirOrder() {
    double[] values = {3, 1, 2};
    assertEquals(2, Median.of(values));
    assertArrayEquals(new double[] {3, 1, 2}, values);
  }
}
