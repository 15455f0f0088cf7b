package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Clocks in Berlin went back from 03:00 to 02:00 on 2025-10-26, at 01:00 UTC. */
class RepeatedHourTest {
  private static List<String> instants(String... times) {
    StringBuilder text = new StringBuilder("time,temperature\n");
    for (String time : times) {
      text.append("2025-10-26 ").append(time).append(",29.5\n");
    }
    return Imported.of(text.toString()).readings.stream()
        .map(reading -> reading.at().toString().substring(11, 16))
        .toList();
  }

  @Test
  void theOrderOfTheRowsDecides() {
    assertEquals(
        List.of("23:45", "00:00", "00:30", "00:45", "01:00", "01:30", "02:00"),
        instants("01:45", "02:00", "02:30", "02:45", "02:00", "02:30", "03:00"));
  }

  @Test
  void theOrderDecidesBackwardsToo() {
    assertEquals(
        List.of("02:00", "01:30", "01:00", "00:45", "00:00", "23:45"),
        instants("03:00", "02:30", "02:00", "02:45", "02:00", "01:45"));
  }

  @Test
  void aStepOfAnHourRepeatsTheTime() {
    assertEquals(
        List.of("23:00", "00:00", "01:00", "02:00"), instants("01:00", "02:00", "02:00", "03:00"));
  }

  @Test
  void anIntervalOfMoreThanAnHourDecides() {
    assertEquals(
        List.of("22:10", "23:40", "01:10", "02:40"), instants("00:10", "01:40", "02:10", "03:40"));
  }

  @Test
  void aRowThatIsThereTwiceDoesNotRepeatTheHour() {
    assertEquals(
        List.of("00:00", "00:10", "00:10", "00:20"), instants("02:00", "02:10", "02:10", "02:20"));
  }

  @Test
  void eachSensorHasItsOwnOrder() {
    Imported file =
        Imported.of(
            """
            time,sensor,temperature
            2025-10-26 02:30,a,29.5
            2025-10-26 02:45,a,29.5
            2025-10-26 02:30,b,29.5
            2025-10-26 02:45,b,29.5
            2025-10-26 02:30,a,29.5
            """);
    assertEquals(
        List.of("00:30", "00:45", "00:30", "00:45", "01:30"),
        file.readings.stream().map(reading -> reading.at().toString().substring(11, 16)).toList());
    assertEquals(
        List.of(
            "5 rows were in the hour that is repeated when clocks go back in Europe/Berlin. The"
                + " order of the rows decided which hour each belongs to."),
        file.notes);
  }
}
