package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;
import tepidarium.container.ContainerId;

class NoticeTextTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Instant SINCE = Instant.parse("2026-03-04T01:10:00Z");
  private static final Alert.Extra PLAIN =
      new Alert.Extra(Priority.HIGH, null, null, List.of(), null, null, false);
  private static final Instant NOW = Instant.parse("2026-03-04T02:40:00Z");

  private static AlertDetails cold(int number, String name) {
    Alert alert =
        new Alert(
            number,
            new ContainerId("jar-" + number),
            AlertKind.COLD,
            29.5,
            SINCE,
            SINCE.plusSeconds(600),
            null,
            null,
            null,
            null,
            26,
            24.5,
            PLAIN);
    return new AlertDetails(alert, name, 4.25);
  }

  private static Notice raised(Units units, List<AlertDetails> situations) {
    return new NoticeText(BERLIN, units, "http://192.168.1.20:8080")
        .of(NoticeKind.RAISED, Priority.HIGH, situations, List.of(), List.of(), NOW);
  }

  @Test
  void oneAlertFitsOnOneScreen() {
    Notice notice = raised(new Units(false), List.of(cold(1, "Jar 1")));
    assertEquals("Jar 1 is too cold, 24.5 °C at worst, since 4 Mar 02:10", notice.subject());
    assertEquals(
        """
        Jar 1 is colder than 29.5 °C.

        Since      4 Mar 02:10, 1 h 30 min
        Limit      29.5 °C
        Last value 26 °C
        At worst   24.5 °C, 5 °C below the limit
        Costs      4.3 °C·h of heat lost so far, compared with staying at the limit

        What to do first
        - Check that the heat source has power: plug, fuse, residual-current device.
        - If anything is wet, unplug the mat before you touch it.
        - No power? Wrap the containers, or carry them to a warm room, closed.

        http://192.168.1.20:8080/container.html?id=jar-1
        """,
        notice.text());
  }

  @Test
  void theSummaryHasAVerdictFirst() {
    NoticeText text = new NoticeText(BERLIN, new Units(false), null);
    String space = "12.3 GiB free, full in about 14 months at this rate";
    Notice fine = text.summary(new DailySummary(8, 1, space, List.of()), List.of(), List.of(), NOW);
    assertEquals("Tepidarium: all in order", fine.subject());
    assertEquals(
        """
        All in order.

        8 containers, 1 sensor heard within the last 24 hours.
        Disk: 12.3 GiB free, full in about 14 months at this rate.
        """,
        fine.text());

    Trouble disk = new Trouble(Trouble.Kind.DISK, SINCE, null, "Only 20 MiB are free.");
    DailySummary facts =
        new DailySummary(
            8,
            9,
            "",
            List.of(
                new DailySummary.LowBattery("jar-2", 0),
                new DailySummary.LowBattery("jar-1", 12.4)));
    Notice bad =
        text.summary(
            facts, List.of(cold(1, "Jar 1").alert(), cold(2, "Jar 2").alert()), List.of(disk), NOW);
    String verdict = "2 active alerts: 2 too cold; disk filling; 2 batteries low";
    assertEquals("Tepidarium: " + verdict, bad.subject());
    assertEquals(
        verdict
            + """
            .

            8 containers, 9 sensors heard within the last 24 hours.
            Only 20 MiB are free.

            Batteries that may be empty within 30 days:
            - jar-2: now
            - jar-1: in about 12 days
            """,
        bad.text());
  }

  @Test
  void aReaderOfFahrenheitGetsFahrenheit() {
    String text = raised(new Units(true), List.of(cold(1, "Jar 1"))).text();
    // 29.5 °C is 85.1 °F; a difference of 5 °C is one of 9 °F; 4.25 °C·h are 7.65 °F·h.
    assertTrue(text.contains("colder than 85.1 °F"), text);
    assertTrue(text.contains("76.1 °F, 9 °F below"), text);
    assertTrue(text.contains("7.7 °F·h") || text.contains("7.6 °F·h"), text);
    assertFalse(text.contains("°C"), text);
  }

  @Test
  void fortyAlertsFitOnOneScreen() {
    List<AlertDetails> shelf =
        IntStream.rangeClosed(1, 40).mapToObj(i -> cold(i, "Jar " + i)).toList();
    Notice notice = raised(new Units(false), shelf);
    assertEquals("40 containers: 40 too cold", notice.subject());
    assertTrue(notice.text().contains("- Jar 20: too cold since"), notice.text());
    assertTrue(notice.text().contains("and 20 more"), notice.text());
    assertTrue(notice.text().contains("170 °C·h of heat lost in total"), notice.text());
    assertTrue(notice.text().contains("one cause"), notice.text());
    assertTrue(notice.text().lines().count() <= 35);
    assertEquals(40, notice.about().size());
  }

  @Test
  void pendingAlertsAreNamedAsPending() {
    AlertKey box = new AlertKey(new ContainerId("box"), AlertKind.COLD);
    NoticeText.NamedPendingAlert along =
        new NoticeText.NamedPendingAlert(new PendingAlert(box, SINCE, 29), "Box\r\n");
    Notice notice =
        new NoticeText(BERLIN, new Units(true), "http://192.168.1.20:8080")
            .of(
                NoticeKind.RAISED,
                Priority.HIGH,
                List.of(cold(1, "Jar 1")),
                List.of(along),
                List.of(),
                NOW);
    assertEquals("2 containers: 1 too cold, 1 more past the limit", notice.subject());
    // 24.5 °C is 76.1 °F, 5 °C less than the limit are 9 °F, 29 °C is 84.2 °F.
    assertTrue(
        notice
            .text()
            .startsWith("- Jar 1: too cold since 4 Mar 02:10, 76.1 °F, 9 °F below the limit\n"),
        notice.text());
    assertTrue(
        notice.text().contains("- Box: since 4 Mar 02:10, 84.2 °F at worst\n"), notice.text());
    assertEquals(new Notice.About(null, "box", "cold", true), notice.about().get(1));
    assertEquals("http://192.168.1.20:8080/", notice.link());
  }

  @Test
  void aNameCannotAddAMailHeader() {
    String subject = raised(new Units(false), List.of(cold(1, "Jar\r\nBcc: x@y"))).subject();
    assertFalse(subject.contains("\n") || subject.contains("\r"), subject);
  }

  @Test
  void everyAlertKindHasATextAndFirstSteps() {
    for (AlertKind kind : AlertKind.values()) {
      Alert alert =
          new Alert(
              1,
              new ContainerId("bag"),
              kind,
              5,
              SINCE,
              SINCE,
              null,
              null,
              null,
              null,
              6,
              7,
              PLAIN);
      Notice notice = raised(new Units(false), List.of(new AlertDetails(alert, "Bag", null)));
      assertTrue(notice.text().contains("What to do first\n- "), notice.text());
      assertTrue(notice.text().contains("Costs      "), notice.text());
      assertTrue(notice.subject().startsWith("Bag is "), notice.subject());
    }
  }

  @Test
  void theNameOfTheSiteBeginsTheSubject() {
    NoticeText text = new NoticeText(BERLIN, new Units(false), null, "North 1");
    Notice notice =
        text.of(
            NoticeKind.RETURNED,
            Priority.HIGH,
            List.of(cold(1, "Jar 1")),
            List.of(),
            List.of(),
            NOW);
    assertTrue(notice.subject().startsWith("North 1: Back to normal: Jar 1"), notice.subject());
    assertEquals("North 1: Tepidarium: a test", text.test(NOW).subject());
  }

  @Test
  void aReturnedAlertNeedsNoSteps() {
    Notice notice =
        new NoticeText(BERLIN, new Units(false), null)
            .of(
                NoticeKind.RETURNED,
                Priority.HIGH,
                List.of(cold(1, "Jar 1")),
                List.of(),
                List.of(),
                NOW);
    assertTrue(notice.subject().startsWith("Back to normal: Jar 1"), notice.subject());
    assertFalse(notice.text().contains("What to do first"), notice.text());
    assertEquals(null, notice.link());
  }
}
