package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import org.junit.jupiter.api.Test;

class TrendTest {
  @Test
  void aTrendIsReadFromItsWords() {
    Trend falling = new Trend(30.1, -1.2, 24);
    String words = "now 30.1 °C and changing by -1.2 °C an hour, towards about 24.0 °C";
    assertEquals(words, falling.words());
    assertEquals(falling, Trend.read(words));
    assertEquals(falling, Trend.read(words + "; the time before was from 2026-03-01T06:00:00Z"));
    assertEquals(new Trend(-0.5, 2.5, 40), Trend.read(new Trend(-0.5, 2.5, 40).words()));
    assertNull(Trend.read("probe: reports 30 °C without any change"));
    assertNull(Trend.read(null));
  }
}
