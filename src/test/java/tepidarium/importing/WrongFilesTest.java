package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tepidarium.reading.InvalidInput;

/** A file that cannot be imported is refused with the remedy; a bad row is reported by its line. */
class WrongFilesTest {
  private static String refusal(byte[] file) {
    return assertThrows(InvalidInput.class, () -> Imported.of(file, Imported.DEFAULTS))
        .getMessage();
  }

  private static void assertRefused(String text, String problem, String remedy) {
    String message = assertThrows(InvalidInput.class, () -> Imported.of(text)).getMessage();
    assertTrue(message.contains(problem) && message.contains(remedy), message);
  }

  @Test
  void refusesAnEmptyFile() {
    assertRefused("", "empty", "Export it from the logger again");
    assertRefused("\n \n", "empty", "Export it from the logger again");
  }

  @Test
  void refusesABinaryFile() {
    byte[] bytes = new byte[5_000];
    new Random(1).nextBytes(bytes);
    String random = refusal(bytes);
    assertTrue(random.contains("not text") && random.contains("as CSV"), random);
    String zip = refusal(new byte[] {'P', 'K', 3, 4, 0, 0, 0});
    assertTrue(zip.contains("spreadsheet") && zip.contains("save the table as CSV"), zip);
  }

  @Test
  void refusesAHeaderWithoutRows() {
    assertRefused(
        "time,temperature,humidity\n", "no rows with values", "Export the readings again");
  }

  @Test
  void refusesDatesWhoseOrderStaysAmbiguous() {
    assertRefused(
        "time,temperature\n03/04/2026 06:00,29.5\n03/04/2026 06:10,29.6\n",
        "day first or month first",
        "Set --date-order to dmy or mdy");
  }

  @Test
  void findsTheOrderOfDatesBehindTheSample() {
    StringBuilder text = new StringBuilder("time,temperature\n");
    for (int i = 0; i < 20_000; i++) {
      text.append("03/04/2026 %02d:%02d:%02d,29.5\n".formatted(i / 3600, i / 60 % 60, i % 60));
    }
    text.append("13/04/2026 06:00:00,29.5\n");
    Imported file = Imported.of(text.toString());
    assertEquals(20_001, file.readings.size());
    assertEquals(
        "day, month, year: \"13/04/2026 06:00:00\" is no date in the past in another order",
        file.guess("date order"));
  }

  @Test
  void usesTheUnitAsAHintToTheOrder() {
    Imported file = Imported.of("time,temp (°F)\n03/04/2026 06:00,86\n03/04/2026 06:10,86\n");
    assertEquals("shelf-2 2026-03-04T05:00:00Z temperature=30.0", file.lines().get(0));
  }

  @Test
  void excludesAnOrderThatGivesTheFuture() {
    Imported file = Imported.of("time,temperature\n05/12/2026 06:00,29.5\n");
    assertEquals("shelf-2 2026-05-12T04:00:00Z temperature=29.5", file.lines().get(0));
  }

  @Test
  void refusesATableWithoutTimes() {
    assertRefused(
        "no,temperature,humidity\n1,29.5,93\n2,29.6,93\n",
        "no column holds a time",
        "with the date and time");
  }

  @Test
  void refusesMixedColumns() {
    assertRefused(
        """
        time,temperature
        2026-03-01 06:00,29.5
        2026-03-01 06:10,29.5
        time,humidity,light,battery
        2026-03-01 06:00,93,0,3
        2026-03-01 06:10,93,0,3
        """,
        "columns are mixed",
        "save each in a file of its own");
    assertRefused(
        "time;a temp;b temp\n2026-03-01 06:00;29,5;1.25\n2026-03-01 06:10;29,6;1.25\n",
        "columns are mixed",
        "Set --decimal to comma or point");
  }

  @Test
  void refusesUnknownAndDuplicateColumns() {
    assertRefused("time,ch1\n2026-03-01 06:00,29.5\n", "no column's header", "--column 2=temp");
    assertRefused(
        "time,temperature,temperature\n2026-03-01 06:00,29.5,30\n",
        "both temperature of one sensor",
        "--column 3=ignore");
  }

  @Test
  void refusesAWrongColumnSetting() {
    String text = "time,temperature\n2026-03-01 06:00,29.5\n";
    for (Map.Entry<String, String> wrong :
        Map.of("9", "temperature", "2", "warmth", "temperature", "temperature:mV").entrySet()) {
      assertThrows(
          InvalidInput.class,
          () -> Imported.of(text, Imported.withColumns(Map.of(wrong.getKey(), wrong.getValue()))));
    }
  }

  @Test
  void reportsBadRowsByLineAndKeepsTheirGoodValues() {
    Imported file =
        Imported.of(
            """
            time,temperature,humidity
            2026-03-01 06:00,29.5,93
            2026-03-01 06:10,212,93
            2026-03-01 06:20,warm,--
            yesterday,29.5,93
            2026-03-29 02:30,29.5,93
            2001-03-01 06:00,29.5,93
            2027-03-01 06:00,29.5,93
            2026-03-01 06:30,29.5
            2026-03-01 06:40,-999,--
            2026-03-01 06:50,29.5,93
            """);
    assertEquals(
        List.of(
            "shelf-2 2026-03-01T05:00:00Z temperature=29.5 humidity=93.0",
            "shelf-2 2026-03-01T05:10:00Z humidity=93.0",
            "shelf-2 2026-03-01T05:50:00Z temperature=29.5 humidity=93.0"),
        file.lines());
    assertEquals(
        List.of(
            "3: \"212\" in \"temperature\" is outside -55 to 125 °C",
            "4: \"warm\" in \"temperature\" is not a number",
            "5: \"yesterday\" is not a time like the others (year, month, day)",
            "6: \"2026-03-29 02:30\" does not exist in Europe/Berlin, because clocks go forward"
                + " there. If the logger keeps standard time, set --zone to its offset, such as"
                + " +01:00",
            "7: is before 2010: the clock of the logger was not set",
            "8: is in the future: check --date-order and --zone, or the clock of the logger",
            "9: has 2 cells, but the header has 3"),
        file.bad);
    assertEquals(1, file.empty);
  }

  @Test
  void reportsAQuoteThatSwallowsRows() {
    StringBuilder text = new StringBuilder("time,temperature,remark\n");
    for (int i = 0; i < 60; i++) {
      String remark = i == 30 ? "\"5 cm pot" : "";
      text.append("2026-03-01 06:%02d,29.5,%s\n".formatted(i, remark));
    }
    Imported file = Imported.of(text.toString());
    assertEquals(30, file.readings.size());
    assertEquals(
        List.of(
            "32: has a quote that is not closed, so 30 lines were read as one row. Correct the"
                + " quote and import the file again"),
        file.bad);
  }

  @Test
  void doesNotReadAnUnknownUnit() {
    Imported file = Imported.of("time,temperature,light (klx)\n2026-03-01 06:00,29.5,3\n");
    assertEquals("shelf-2 2026-03-01T05:00:00Z temperature=29.5", file.lines().get(0));
    assertTrue(file.guess("column 3").startsWith("left out: its unit klx"), file.guess("column 3"));
  }
}
