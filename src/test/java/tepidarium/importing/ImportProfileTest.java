package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.InvalidInput;
import tepidarium.records.ImportProfileRecords;
import tepidarium.records.sqlite.SqliteRecords;

/** Choices kept under a name, and how messages name their fields on the page. */
class ImportProfileTest {
  private static ImportChoices choices(String zone, String decimal, Map<String, String> columns) {
    return new ImportChoices(null, zone, null, decimal, null, null, null, columns);
  }

  @Test
  void choicesWinOverThoseOfTheProfile() {
    ImportChoices profile = choices("+01:00", ",", Map.of("warm", "temperature:F", "3", "co2"));
    ImportChoices given = choices("+02:00", "", Map.of("2", "humidity", "3", "ignore"));
    ImportChoices all = given.over(profile);
    assertEquals("+02:00", all.zone());
    assertEquals("comma", all.decimal());
    assertEquals(Map.of("warm", "temperature:F", "2", "humidity", "3", "ignore"), all.columns());
    // The profile names column 2 by its header, the given choices by its number.
    var meanings =
        ColumnSetting.of(
            all.columns(), List.of("time", "warm", "x"), ImportTexts.fields(Locale.ENGLISH));
    assertEquals("humidity", meanings.get(1).quantity().key());
  }

  @Test
  void namesAndEmptyProfilesAreRefused() {
    for (String name : List.of("", " closet", "a/b", "x".repeat(41), "-x", "a\nb")) {
      assertThrows(InvalidInput.class, () -> new ImportProfile(name, ImportChoices.NONE), name);
    }
    ImportProfile empty = new ImportProfile("Käfer 2 (top)", ImportChoices.NONE);
    assertThrows(InvalidInput.class, () -> empty.check(ImportTexts.fields(Locale.ENGLISH)));
  }

  @Test
  void profilesSurviveAndAHundredAreKept(@TempDir Path folder) {
    Path file = folder.resolve("records.db");
    ImportChoices choices = choices("UTC", "comma", Map.of("2", "temperature:F", "x", "ignore"));
    ImportProfile replaced = new ImportProfile("logger 7", choices("+01:00", "", Map.of()));
    try (SqliteRecords records = SqliteRecords.open(file)) {
      ProfileStore profiles = new ImportProfileRecords(records);
      for (int i = 0; i < ProfileStore.MAX_PROFILES; i++) {
        profiles.save(new ImportProfile("logger " + i, choices));
      }
      ImportProfile more = new ImportProfile("logger 100", choices);
      assertThrows(InvalidInput.class, () -> profiles.save(more));
      profiles.save(replaced);
    }
    try (SqliteRecords records = SqliteRecords.open(file)) {
      ProfileStore profiles = new ImportProfileRecords(records);
      assertEquals(ProfileStore.MAX_PROFILES, profiles.all().size());
      assertEquals(replaced.choices(), profiles.choices("logger 7"));
      assertEquals(choices, profiles.choices("logger 99"));
    }
  }

  @Test
  void refusalsOnThePageNameItsFields() {
    List<String> files =
        List.of(
            "time,temp\n03/04/2026 06:00,29.5\n",
            "time,temp,humidity\n2026-03-01 06:00,\"29,5\",60.5\n",
            "time,temp\n2026-03-01 06:00,\"1,234\"\n",
            "time,ch1\n2026-03-01 06:00,29.5\n",
            "time,temp,temp\n2026-03-01 06:00,29.5,30\n",
            "time,temp\n2026-03-01 06:00,warm\n");
    List<String> named =
        List.of(
            "Set \"Date order\" to dmy or mdy",
            "Set \"Decimal sign\" to comma or point",
            "Set \"Decimal sign\" to comma or point",
            "such as 2=temperature in \"Columns\"",
            "such as 3=temperature@jar-1 in \"Columns\", or leave it out with 3=ignore",
            "between the cells with \"Delimiter\"");
    for (int i = 0; i < files.size(); i++) {
      String file = files.get(i);
      String refusal =
          assertThrows(InvalidInput.class, () -> Imported.of(file, onPage(ImportChoices.NONE)))
              .getMessage();
      assertTrue(refusal.contains(named.get(i)), refusal);
      assertFalse(refusal.contains("--"), refusal);
    }
    Imported set =
        Imported.of("time,temp\n2030-03-01 06:00,2\n", onPage(choices("UTC", "", Map.of())));
    assertEquals("UTC: set in \"Time zone\"", set.guess("time zone"));
    assertEquals(
        List.of(
            "2: is in the future: check \"Date order\" and \"Time zone\", or the clock of the"
                + " logger"),
        set.bad);
  }

  private static ImportOptions onPage(ImportChoices choices) {
    return choices.options(
        "shelf.csv", Imported.BERLIN, Imported.NOW, ImportTexts.fields(Locale.ENGLISH));
  }
}
