package tepidarium.app;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command that exports readings, over readings that the import stored. */
class ExportCommandTest {
  @TempDir private static Path folder;
  private static Path data;
  private static Path config;

  @BeforeAll
  static void importReadings() throws IOException {
    data = folder.resolve("data");
    config = Files.writeString(folder.resolve("t.yaml"), "timeZone: Europe/Berlin\n");
    Path file =
        Files.writeString(
            folder.resolve("jar-1.csv"),
            "time,temperature\n2026-02-28T23:00Z,29.5\n2026-03-01T23:00Z,30\n");
    assertEquals(0, run(new ImportCommand(), file.toString()).status());
  }

  private static CommandRun run(Callable<Integer> subcommand, String... options) {
    List<String> all =
        new ArrayList<>(List.of("--data", data.toString(), "--config", config.toString()));
    all.addAll(List.of(options));
    return CommandRun.of(subcommand, all.toArray(String[]::new));
  }

  private static CommandRun export(String... options) {
    ByteArrayOutputStream standardOutput = new ByteArrayOutputStream();
    CommandRun ended = run(new ExportCommand(standardOutput), options);
    return new CommandRun(ended.status(), standardOutput.toString(UTF_8) + ended.output());
  }

  @Test
  void daysAreThoseOfTheSettingTimeZone() {
    CommandRun ended = export("--from", "2026-03-01", "--to", "2026-03-02");
    assertEquals(0, ended.status(), ended.output());
    List<String> lines = ended.output().lines().toList();
    assertEquals(2, lines.size(), ended.output());
    assertTrue(lines.get(0).contains("temperature (°C)"), lines.get(0));
    assertEquals("2026-02-28T23:00:00Z,jar-1,29.5,,,,,", lines.get(1));
    assertEquals(ended, export("--from", "2026-03-01T00:00", "--to", "2026-03-01T23:00Z"));
  }

  @Test
  void aFileIsReplacedOnlyByAWholeExport() throws IOException {
    Path file = Files.writeString(folder.resolve("out.lp"), "old");
    String[] options = {"--output", file.toString(), "--format", "line-protocol", "--sensor"};
    List<String> wrong = new ArrayList<>(List.of(options));
    wrong.add("nobody");
    assertEquals(1, export(wrong.toArray(String[]::new)).status());
    assertEquals("old", Files.readString(file));
    List<String> right = new ArrayList<>(List.of(options));
    right.add("jar-1");
    assertTrue(export(right.toArray(String[]::new)).output().startsWith("2 readings written to"));
    assertEquals(3, Files.readAllLines(file).size());
    assertFalse(Files.exists(folder.resolve("out.lp.part")));
  }

  @Test
  void aFailedExportLeavesNoPart() throws IOException {
    Path target = Files.createDirectories(folder.resolve("taken").resolve("inside")).getParent();
    assertEquals(1, export("--output", target.toString()).status());
    assertFalse(Files.exists(folder.resolve("taken.part")));
  }

  @Test
  void wrongOptionsAreRefusedWithARemedy() {
    assertTrue(export("--from", "1 March").output().contains("--from must be a day such as"));
    assertTrue(export("--format", "pdf").output().contains("csv or line-protocol"));
  }

  @Test
  void aFolderWithoutDataIsNotCreated() {
    Path nowhere = folder.resolve("nowhere");
    CommandRun ended = CommandRun.of(new ExportCommand(), "--data", nowhere.toString());
    assertEquals(1, ended.status());
    assertTrue(ended.output().contains("there is no data in the folder"), ended.output());
    assertFalse(Files.exists(nowhere));
  }

  @Test
  void aFolderInUseIsRefused() {
    DataFolder inUse = DataFolder.open(data);
    try {
      assertTrue(export().output().contains("another Tepidarium is using the data folder"));
    } finally {
      inUse.close();
    }
  }
}
