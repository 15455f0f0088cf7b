package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tepidarium.LanguageFile;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Priority;
import tepidarium.container.ContainerId;

/** The texts of notices in each language: none is missing, none is unused, none is English. */
class NoticeWordsTest {
  private static final Path FOLDER = Path.of("src/main/resources/tepidarium/alert/notify");
  private static final Path CODE = Path.of("src/main/java/tepidarium/alert/notify");
  private static final Pattern KEY = Pattern.compile("\"([a-z]\\w*(?:\\.\\w*)?)\"");
  private static final Pattern ENGLISH =
      Pattern.compile("\\b(the|of|is|not|and|with|since|was|has|it|a|for|no|to)\\b");
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Instant SINCE = Instant.parse("2026-03-04T01:10:00Z");
  private static final Instant NOW = Instant.parse("2026-03-04T02:40:00Z");
  private static final NoticeText GERMAN =
      new NoticeText(BERLIN, new Units(false, Locale.GERMAN), "http://192.168.1.20:8080");

  private static Properties texts(String file) throws IOException {
    return LanguageFile.read(FOLDER.resolve(file));
  }

  private static Stream<String> kinds() {
    return Arrays.stream(AlertKind.values()).map(AlertKind::key);
  }

  private static Stream<String> troubles() {
    return Arrays.stream(Trouble.Kind.values()).map(Trouble.Kind::key);
  }

  /** The keys of the code; those that end with a topic, for each topic. */
  private static Set<String> used() throws IOException {
    Set<String> used = new TreeSet<>();
    Set<String> known = texts("notices.properties").stringPropertyNames();
    for (String file : List.of("NoticeText", "AlertLines", "NoticeFormat", "SummaryText")) {
      Matcher keys = KEY.matcher(Files.readString(CODE.resolve(file + ".java")));
      while (keys.find()) {
        String key = keys.group(1);
        switch (key) {
          case "now.", "was." -> kinds().map(key::concat).forEach(used::add);
          case "trouble." -> troubles().map(key::concat).forEach(used::add);
          case "beyond." -> Stream.of("above", "below").map(key::concat).forEach(used::add);
          case "state.", "steps." ->
              Stream.concat(kinds(), troubles()).map(key::concat).forEach(used::add);
          default -> {
            if (known.contains(key)) {
              used.add(key);
            }
          }
        }
      }
    }
    return used;
  }

  @Test
  void everyTextIsThereInEachLanguageAndUsed() throws IOException {
    Set<String> english = new TreeSet<>(texts("notices.properties").stringPropertyNames());
    Set<String> german = new TreeSet<>(texts("notices_de.properties").stringPropertyNames());
    assertEquals(english, german);
    assertEquals(used(), english);
  }

  @Test
  void aGermanTextHasNoValueThatTheEnglishOneLacks() throws IOException {
    Properties english = texts("notices.properties");
    Properties german = texts("notices_de.properties");
    for (String key : german.stringPropertyNames()) {
      Set<String> values = LanguageFile.values(german.getProperty(key));
      assertTrue(LanguageFile.values(english.getProperty(key)).containsAll(values), key);
    }
  }

  /** A single apostrophe begins a quotation of MessageFormat, and would not be shown. */
  @Test
  void noTextHasASingleApostrophe() throws IOException {
    for (String file : List.of("notices.properties", "notices_de.properties")) {
      Properties texts = texts(file);
      for (String key : texts.stringPropertyNames()) {
        assertFalse(texts.getProperty(key).replace("''", "").contains("'"), file + ": " + key);
      }
    }
  }

  private static Alert alert(AlertKind kind, boolean active, double worst) {
    Alert.Extra extra =
        new Alert.Extra(
            Priority.HIGH, null, "a sign", List.of(), null, NOW.plusSeconds(600), false);
    return new Alert(
        1,
        new ContainerId("glas-1"),
        kind,
        29.5,
        SINCE,
        SINCE,
        active ? null : NOW,
        null,
        null,
        null,
        26,
        worst,
        extra);
  }

  @Test
  void noGermanNoticeHoldsEnglish() {
    for (NoticeKind kind :
        List.of(
            NoticeKind.RAISED, NoticeKind.REMINDER, NoticeKind.ESCALATION, NoticeKind.RETURNED)) {
      for (AlertKind alertKind : AlertKind.values()) {
        Alert alert = alert(alertKind, kind != NoticeKind.RETURNED, 24.5);
        assertGerman(notice(kind, List.of(new AlertDetails(alert, "Glas 1", 4.25)), List.of()));
        AlertDetails other = new AlertDetails(alert, "Glas 2", null);
        assertGerman(notice(kind, List.of(other, other, other), List.of()));
        NoticeText.NamedPendingAlert pending =
            new NoticeText.NamedPendingAlert(
                new PendingAlert(new AlertKey(new ContainerId("glas-3"), alertKind), SINCE, 24.5),
                "Glas 3");
        Notice many =
            GERMAN.of(kind, Priority.HIGH, List.of(other), List.of(pending), List.of(), NOW);
        assertTrue(many.text().contains("Glas 3: seit dem 4. März"), many.text());
        assertGerman(many);
      }
      for (Trouble.Kind trouble : Trouble.Kind.values()) {
        assertGerman(
            notice(kind, List.of(), List.of(new Trouble(trouble, SINCE, null, "it is broken"))));
      }
    }
    Trouble trouble = new Trouble(Trouble.Kind.DISK, SINCE, null, "the disk is full");
    DailySummary facts =
        new DailySummary(1, 1, "of GiB", List.of(new DailySummary.LowBattery("glas-2", 12.4)));
    assertGerman(
        GERMAN.summary(facts, List.of(alert(AlertKind.COLD, true, 24.5)), List.of(trouble), NOW));
    assertGerman(GERMAN.test(NOW));
  }

  private static Notice notice(NoticeKind kind, List<AlertDetails> alerts, List<Trouble> troubles) {
    return GERMAN.of(kind, Priority.HIGH, alerts, List.of(), troubles, NOW);
  }

  private static void assertGerman(Notice notice) {
    String shown = notice.subject() + '\n' + notice.text();
    assertFalse(ENGLISH.matcher(shown).find(), shown);
  }

  @Test
  void aGermanNoticeHasADecimalComma() {
    AlertDetails cold = new AlertDetails(alert(AlertKind.COLD, true, 24.5), "Glas 1", 4.25);
    Notice notice = notice(NoticeKind.RAISED, List.of(cold), List.of());
    assertEquals(
        "Glas 1 ist zu kalt, äußerster Wert 24,5 °C, seit dem 4. März, 02:10", notice.subject());
    assertEquals(
        """
        Glas 1 ist kälter als 29,5 °C.

        Seit         4. März, 02:10, 1 h 30 min
        Grenze       29,5 °C
        Letzter Wert 26 °C
        Extremwert   24,5 °C, 5 °C unter der Grenze
        Kosten       bisher 4,3 °C·h Wärme verloren, verglichen mit der Grenze

        Was zuerst zu tun ist
        - Prüfen, ob die Wärmequelle Strom hat: Stecker, Sicherung, FI-Schalter.
        - Ist etwas nass: erst den Stecker der Matte ziehen, dann anfassen.
        - Kein Strom? Die Behälter einwickeln oder geschlossen in einen warmen Raum tragen.

        http://192.168.1.20:8080/container.html?id=glas-1
        """,
        notice.text());
  }
}
