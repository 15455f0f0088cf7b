package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;

/** What a grower reads of an alert. */
class AlertTextTest {
  private static final Instant SINCE = Instant.parse("2026-03-01T06:30:00Z");

  private static final Alert.Extra EXTRA =
      new Alert.Extra(
          Priority.MEDIUM, null, null, List.of(), null, SINCE.plusSeconds(3_600), false);

  private static String text(AlertKind kind, double limit, double worst, @Nullable Instant back) {
    ContainerId bag = new ContainerId("bag");
    Alert alert =
        new Alert(1, bag, kind, limit, SINCE, SINCE, back, null, null, null, worst, worst, EXTRA);
    return AlertText.of(alert, "Bag", ZoneOffset.UTC);
  }

  @Test
  void aLimitIsDescribedWithTheWorstValue() {
    assertEquals(
        "Bag has been colder than 29.5 °C since 1 Mar 06:30, 24 °C at worst.",
        text(AlertKind.COLD, 29.5, 24, null));
  }

  @Test
  void aForecastIsDescribedWithItsTime() {
    assertEquals(
        "Bag has been getting too cold since 1 Mar 06:30, and outside at about 1 Mar 07:30.",
        text(AlertKind.HEADING_COLD, 120, 60, null));
    assertEquals(
        "Bag was getting too cold from 1 Mar 06:30; it is back to normal.",
        text(AlertKind.HEADING_COLD, 120, 60, SINCE.plusSeconds(60)));
  }

  @Test
  void silenceIsDescribedFromTheLastReadingOn() {
    assertEquals(
        "Bag has been silent: a sensor in it has not been heard since 1 Mar 06:30.",
        text(AlertKind.SILENT, 30, 30.1, null));
    assertEquals(
        "Bag was silent: a sensor in it was not heard from 1 Mar 06:30; it is back to normal.",
        text(AlertKind.SILENT, 30, 30.1, SINCE.plusSeconds(60)));
  }
}
