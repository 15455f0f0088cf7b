package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class TrendTest {
  @Test
  void theWordsHaveOneDecimalAndASign() {
    assertEquals(
        "now 30.1 °C and changing by -1.2 °C an hour, towards about 24.0 °C",
        new Trend(30.1, -1.2, 24).reason().words());
    assertEquals(
        "now -0.5 °C and changing by +2.5 °C an hour, towards about 40.0 °C",
        new Trend(-0.5, 2.5, 40).reason().words());
  }
}
