package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Files of ten shapes as loggers write them, with invented data. Nine need no setting. */
class LoggerShapesTest {
  @Test
  void readsAPlainTableWithIsoTimesAndOffsets() {
    Imported file =
        Imported.of(
            """
            timestamp,temperature,humidity,co2
            2026-03-01T06:00:00+01:00,29.5,93.1,612
            2026-03-01T06:10:00+01:00,29.75,93,640
            """);
    assertEquals(
        List.of(
            "shelf-2 2026-03-01T05:00:00Z temperature=29.5 humidity=93.1 co2=612.0",
            "shelf-2 2026-03-01T05:10:00Z temperature=29.75 humidity=93.0 co2=640.0"),
        file.lines());
    assertEquals(List.of(), file.bad);
  }

  @Test
  void readsSemicolonsDecimalCommasAndAPreambleInWindowsEncoding() {
    String text =
        """
        Protokoll der Messung
        Gerätename:;Schrank Süd 3
        Zeitzone:;UTC+01:00

        Datum;Uhrzeit;Temperatur (°C);Luftfeuchte (%);Taupunkt (°C)
        28.02.2026;23:50:00;29,4;91,5;27,9
        01.03.2026;00:00:00;29,6;---;---
        """;
    Imported file = Imported.of(text.getBytes(Charset.forName("windows-1252")), Imported.DEFAULTS);
    assertEquals(
        List.of(
            "Schrank-S-d-3 2026-02-28T22:50:00Z temperature=29.4 humidity=91.5",
            "Schrank-S-d-3 2026-02-28T23:00:00Z temperature=29.6"),
        file.lines());
    assertEquals("left out: a calculated value, a limit or a state", file.guess("column 5"));
  }

  @Test
  void readsMonthFirstDatesWithTwelveHoursAndFahrenheit() {
    Imported file =
        Imported.of(
            """
            "Plot title: closet"
            "#","Date Time, GMT-05:00","Temp, °F","RH, %","Light, lux"
            1,"03/13/26 11:50:00 PM",86.0,92.5,0
            2,"03/14/26 12:00:00 AM",87.8,92.25,"1,200"
            """);
    assertEquals(
        List.of(
            "shelf-2 2026-03-14T04:50:00Z temperature=30.0 humidity=92.5 light=0.0",
            "shelf-2 2026-03-14T05:00:00Z temperature=31.0 humidity=92.25 light=1200.0"),
        file.lines());
    assertEquals("-05:00: the lines above the values name it", file.guess("time zone"));
  }

  @Test
  void readsTabsInUtf16WithUnitsInALineOfTheirOwn() {
    String text =
        """
        Time\tT1\tRH1\tVbat
        \t°C\t%RH\tmV
        2026/03/01 06:00\t30.25\t95.5\t2980
        2026/03/01 06:30\tn/a\t95.25\t2975
        """;
    Imported file = Imported.of(text.getBytes(StandardCharsets.UTF_16), Imported.DEFAULTS);
    assertEquals(
        List.of(
            "shelf-2 2026-03-01T05:00:00Z temperature=30.25 humidity=95.5 battery=2.98",
            "shelf-2 2026-03-01T05:30:00Z humidity=95.25 battery=2.975"),
        file.lines());
  }

  @Test
  void readsEpochSecondsWithAColumnOfSensors() {
    Imported file =
        Imported.of(
            """
            epoch,device,temp_c,hum
            1772323200,a1,28.5,0.91
            1772323200,b2,27.25,0.88
            1772323260,a1,28.6,0.92
            1772323260,b2,ERR,0.89
            """);
    assertEquals(
        List.of(
            "a1 2026-03-01T00:00:00Z temperature=28.5 humidity=91.0",
            "b2 2026-03-01T00:00:00Z temperature=27.25 humidity=88.0",
            "a1 2026-03-01T00:01:00Z temperature=28.6 humidity=92.0",
            "b2 2026-03-01T00:01:00Z humidity=89.0"),
        file.lines());
  }

  @Test
  void readsSeveralSensorsBesideEachOtherWithEpochMilliseconds() {
    Imported file =
        Imported.of(
            """
            ts,Box 1 Temperature [°C],Box 1 Humidity [%],Box 2 Temperature [°C]
            1772323200500,28.5,91,30.5
            1772323260500,28.75,91.5,
            """);
    assertEquals(
        List.of(
            "Box-1 2026-03-01T00:00:00.500Z temperature=28.5 humidity=91.0",
            "Box-2 2026-03-01T00:00:00.500Z temperature=30.5",
            "Box-1 2026-03-01T00:01:00.500Z temperature=28.75 humidity=91.5"),
        file.lines());
  }

  @Test
  void readsDayFirstSlashesBecauseTheRowsFollowEachOther() {
    Imported file =
        Imported.of(
            """
            \uFEFFDate,Time,Temperature,Soil moisture (%),Battery
            01/02/2026,23:30,29.5 °C,41.5,3.02V
            02/02/2026,00:00,29.25 °C,41.25,3.01V
            """);
    assertEquals(
        List.of(
            "shelf-2 2026-02-01T22:30:00Z temperature=29.5 battery=3.02 mediumMoisture=41.5",
            "shelf-2 2026-02-01T23:00:00Z temperature=29.25 battery=3.01 mediumMoisture=41.25"),
        file.lines());
    assertEquals(
        "day, month, year: in this order the rows follow each other most closely",
        file.guess("date order"));
  }

  @Test
  void readsNewestFirstWithNamesOfMonthsAndQuotes() {
    Imported file =
        Imported.of(
            """
            "Serial number","K-0042"
            "Sample","Recorded at","Relative humidity %","Ambient temp C","Remark"
            "2","Mar 1, 2026 6:10 PM","94.5","30.5","door; ""open""."
            "1","Mar 1, 2026 6:00 PM","94.25","30.25",""
            """);
    assertEquals(
        List.of(
            "K-0042 2026-03-01T17:10:00Z temperature=30.5 humidity=94.5",
            "K-0042 2026-03-01T17:00:00Z temperature=30.25 humidity=94.25"),
        file.lines());
  }

  @Test
  void readsLineProtocol() {
    Imported file =
        Imported.of(
            """
            # exported
            climate,room=seed\\ room,sensor=jar\\ 7 temperature=29.5,humidity=93i,note="a b, c" 1772323200000000000
            climate,sensor=jar\\ 7 temp_f=86 1772323260
            light,host=roof value=12.5 1772323320000
            """);
    assertEquals(
        List.of(
            "jar-7 2026-03-01T00:00:00Z temperature=29.5 humidity=93.0",
            "jar-7 2026-03-01T00:01:00Z temperature=30.0",
            "light 2026-03-01T00:02:00Z light=12.5"),
        file.lines());
    assertEquals(List.of(), file.bad);
  }

  @Test
  void readsAHeaderWithoutKnownWordsWithOneSetting() {
    Imported file =
        Imported.of(
            """
            when;ch1;ch2
            2026-03-01 06:00:00;70,5;1
            2026-03-01 06:01:00;70,7;2
            """,
            Imported.withColumns(Map.of("ch1", "temperature:F@probe 1")));
    assertEquals(
        List.of(
            "probe-1 2026-03-01T05:00:00Z temperature=21.3889",
            "probe-1 2026-03-01T05:01:00Z temperature=21.5"),
        file.lines());
    assertTrue(file.guess("column 2").contains("set by --column"));
  }
}
