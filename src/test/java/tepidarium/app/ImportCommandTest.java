package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.importing.ImportOptions;
import tepidarium.importing.ImportedFile;
import tepidarium.importing.LoggerFile;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.records.ClockRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.sqlite.SqliteReadings;

/** The command that imports readings, and what is in the data folder afterwards. */
class ImportCommandTest {
  private static final String FILE =
      """
      time,temperature
      2026-03-01T06:00Z,29.5
      2026-03-01T06:10Z,hot
      2026-03-01T06:10Z,29.75
      2026-03-01T06:20Z,30
      """;

  @TempDir private Path folder;
  private Path file;
  private Path data;

  @BeforeEach
  void aFile() throws IOException {
    data = folder.resolve("data");
    file = Files.writeString(folder.resolve("jar-1.csv"), FILE);
  }

  private CommandRun run(String... options) {
    String[] all = java.util.Arrays.copyOf(options, options.length + 3);
    all[options.length] = "--data";
    all[options.length + 1] = data.toString();
    all[options.length + 2] = file.toString();
    return CommandRun.of(new ImportCommand(), all);
  }

  private int storedRows() {
    try (SqliteReadings readings = SqliteReadings.open(data.resolve("readings.db"))) {
      Span span = new Span(Instant.EPOCH, Instant.parse("2030-01-01T00:00:00Z"));
      var samples = readings.read(new SensorId("jar-1"), span).get(Quantity.TEMPERATURE);
      return samples == null ? 0 : samples.size();
    }
  }

  private static void assertHas(String text, String part) {
    assertTrue(text.contains(part), text);
  }

  @Test
  void storesEachReadingOnceAndWritesRejectedRowsToAFile() throws IOException {
    CommandRun first = run();
    assertEquals(0, first.status(), first.output());
    assertHas(first.output(), "3 readings stored, 0 already there");
    assertHas(first.output(), "1 row rejected");
    assertEquals(
        "line,reason,text\r\n3,\"\"\"hot\"\" in \"\"temperature\"\" is not a number\","
            + "\"2026-03-01T06:10Z,hot\"\r\n",
        Files.readString(folder.resolve("jar-1.csv-rejected.csv")));
    CommandRun again = run();
    assertHas(again.output(), "0 readings stored, 3 already there");
    assertEquals(3, storedRows());
  }

  @Test
  void doesNotMakeTheNextStartDoubtTheClock() {
    run();
    try (SqliteRecords records = SqliteRecords.open(data.resolve("records.db"))) {
      Instant seen = new ClockRecords(records).lastSeen().orElseThrow();
      assertTrue(Duration.between(seen, Clock.systemUTC().instant()).toHours() < 1, "" + seen);
    }
  }

  @Test
  void storesOnlyRowsFromALineOn() {
    assertHas(run("--from-line", "5").output(), "1 reading stored, 0 already there, 2 before");
    assertEquals(1, storedRows());
  }

  @Test
  void previewStoresNothingAndNeedsNoFolder() throws IOException {
    CommandRun preview = run("--preview");
    assertEquals(0, preview.status());
    assertHas(preview.output(), "line 2: jar-1 2026-03-01T06:00:00Z temperature 29.5 °C");
    assertHas(preview.output(), "line 3 is rejected: \"hot\"");
    assertHas(preview.output(), "delimiter: comma (");
    assertFalse(Files.exists(data));
    assertFalse(Files.exists(folder.resolve("jar-1.csv-rejected.csv")));
  }

  @Test
  void refusesAFolderInUse() {
    DataFolder inUse = DataFolder.open(data);
    try {
      CommandRun ended = run();
      assertEquals(1, ended.status());
      assertHas(ended.output(), "another Tepidarium is using the data folder");
    } finally {
      inUse.close();
    }
  }

  @Test
  void refusesWrongOptionsBeforeItOpensTheFolder() {
    for (List<String> wrong :
        List.of(
            List.of("--zone", "Mars"),
            List.of("--date-order", "ydm"),
            List.of("--decimal", "dot"),
            List.of("--delimiter", "||"),
            List.of("--encoding", "no such"))) {
      CommandRun ended = run(wrong.toArray(String[]::new));
      assertEquals(1, ended.status());
      assertHas(ended.output(), wrong.get(1).equals("ydm") ? "dmy, mdy or ymd" : wrong.get(0));
    }
    assertFalse(Files.exists(data));
  }

  @Test
  void keepsSettingsAsAProfileAndUsesThemAgain() throws IOException {
    file = Files.writeString(folder.resolve("shelf.csv"), "when,warm\n2026-03-01 06:00,77\n");
    CommandRun kept =
        run(
            "--preview",
            "--save-profile=closet",
            "--zone=+02:00",
            "--column=warm=temperature:F",
            "--sensor=jar-1");
    assertEquals(0, kept.status(), kept.output());
    assertHas(kept.output(), "The settings are kept as the profile closet.");
    assertHas(
        run("--preview", "--profile", "closet").output(),
        "line 2: jar-1 2026-03-01T04:00:00Z temperature 25.0 °C");
    assertHas(
        run("--preview", "--profile=closet", "--column=2=temperature:C", "--zone=+01:00").output(),
        "line 2: jar-1 2026-03-01T05:00:00Z temperature 77.0 °C");
    assertHas(run("--profile", "closet").output(), "1 reading stored");
    assertEquals(1, storedRows());

    file = Files.writeString(folder.resolve("shelf.csv"), "when,degrees\n2026-03-01 06:00,77\n");
    CommandRun other = run("--profile", "closet", "--save-profile", "other");
    assertEquals(1, other.status());
    assertHas(other.output(), "--column warm: the table has no such column. Its columns are 1");
    assertHas(other.output(), "The profile closet was used. Leave it out, or save it again");
    assertHas(run("--profile", "other").output(), "no import profile \"other\". Kept are: closet");
    assertHas(run("--save-profile", "a/b", "--zone=UTC").output(), "the name of a profile has");
    assertHas(run("--save-profile", "plain").output(), "the profile plain would be empty");
    assertHas(run("--save-profile", "x", "--column=2=heat").output(), "\"heat\" is not a meaning");
  }

  @Test
  void aFileThatCannotBeReadDoesNotHoldUpTheOthers() throws IOException {
    Path empty = Files.createFile(folder.resolve("empty.csv"));
    CommandRun ended = run(empty.toString());
    assertEquals(1, ended.status());
    assertHas(ended.output(), "empty.csv was not imported: the file is empty");
    assertEquals(3, storedRows());
  }

  @Test
  void aStoppedImportSaysWhereToGoOn() throws IOException {
    Clock clock = Clock.fixed(Instant.parse("2026-11-30T00:00:00Z"), ZoneOffset.UTC);
    StringWriter output = new StringWriter();
    ImportedFile source = new ImportedFile(file);
    LoggerFile opened =
        LoggerFile.open(
            source, ImportOptions.guessAll("jar-1.csv", ZoneOffset.UTC, clock.instant()));
    try (ReadingImport importing =
        ReadingImport.open(Config.of(Map.of("data", data.toString())), clock)) {
      importing.stop();
      assertFalse(importing.store(source, opened, 1, null, new PrintWriter(output, true)));
    }
    assertHas(output.toString(), "Stopped after line 2 of jar-1.csv");
    assertHas(output.toString(), "--from-line 3");
    assertEquals(1, storedRows());
    assertThrows(
        tepidarium.reading.InvalidInput.class, () -> new ImportedFile(folder.resolve("missing")));
  }
}
