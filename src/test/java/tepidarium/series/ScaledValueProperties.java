package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;

/** Tests that stored values are close to the sent ones and survive repeated conversion. */
class ScaledValueProperties {
  @Property
  void aScaledValueIsWrittenAsItsDecimalNumber(
      @ForAll @LongRange(min = -2_000_000_000_000L, max = 2_000_000_000_000L) long steps) {
    StringBuilder text = new StringBuilder();
    ScaledValue.append(text, steps);
    assertEquals(ScaledValue.value(steps), Double.parseDouble(text.toString()), text.toString());
    assertEquals(steps, ScaledValue.steps(ScaledValue.value(steps)));
  }

  @Property
  void aValueIsKeptToHalfAStep(@ForAll @DoubleRange(min = -100, max = 200_000) double value) {
    assertEquals(value, ScaledValue.value(ScaledValue.steps(value)), 0.000_050_001);
  }

  @Example
  void zerosAtTheEndAreLeftOut() {
    StringBuilder text = new StringBuilder();
    for (long steps : new long[] {0, 302_500, -127, 10_000, 99_999_999}) {
      ScaledValue.append(text, steps);
      text.append(' ');
    }
    assertEquals("0 30.25 -0.0127 1 9999.9999 ", text.toString());
  }
}
