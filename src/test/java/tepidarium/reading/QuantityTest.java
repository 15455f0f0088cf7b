package tepidarium.reading;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class QuantityTest {
  @ParameterizedTest
  @EnumSource
  void aQuantityIsFoundByItsKey(Quantity quantity) {
    assertEquals(Optional.of(quantity), Quantity.ofKey(quantity.key()));
  }

  @Test
  void thereIsNoQuantityOfAnotherName() {
    assertEquals(Optional.empty(), Quantity.ofKey("Temperature"));
    assertEquals(Optional.empty(), Quantity.ofKey("pressure"));
    assertEquals(Optional.empty(), Quantity.ofKey(""));
  }

  @ParameterizedTest
  @CsvSource({
    "TEMPERATURE, -55, 125",
    "HUMIDITY, 0, 110",
    "LIGHT, 0, 200000",
    "BATTERY, 0, 60",
  })
  void theEndsOfTheRangeArePlausibleAndWhatLiesBeyondIsNot(
      Quantity quantity, double low, double high) {
    assertTrue(quantity.plausible(low));
    assertTrue(quantity.plausible(high));
    assertFalse(quantity.plausible(Math.nextDown(low)));
    assertFalse(quantity.plausible(Math.nextUp(high)));
    assertFalse(quantity.plausible(Double.NaN));
  }

  @Test
  void keysAndRangesDoNotDependOnThePlace() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr"));
      assertEquals("humidity", Quantity.HUMIDITY.key());
      assertEquals("light", Quantity.LIGHT.key());
      assertEquals("0 to 200000 lux", Quantity.LIGHT.range());
    } finally {
      Locale.setDefault(before);
    }
  }
}
