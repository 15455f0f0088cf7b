package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupPart;
import tepidarium.backup.BackupRewriter;
import tepidarium.backup.SmallFolder;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.rollup.sqlite.SqliteRollups;
import tepidarium.sqlite.SqliteCopy;

/** The commands {@code backup} and {@code restore}. */
class BackupCommandTest {
  @TempDir private Path folder;
  private Path data;
  private Path file;
  private Path config;

  @BeforeEach
  void create() throws IOException {
    data = SmallFolder.create(folder.resolve("data"));
    file = folder.resolve("backup.zip");
    config = Files.writeString(folder.resolve("t.yaml"), "timeZone: Europe/Berlin\n");
  }

  private CommandRun backup(String... more) {
    List<String> options =
        new ArrayList<>(List.of(file.toString(), "--data=" + data, "--config=" + config));
    options.addAll(List.of(more));
    return CommandRun.of(new BackupCommand(), options.toArray(String[]::new));
  }

  private CommandRun restore(Path target) {
    return CommandRun.of(new RestoreCommand(), file.toString(), "--data=" + target);
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(path -> path.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void aBackupIsRestoredIntoANewFolder() throws IOException {
    CommandRun written = backup();
    assertEquals(0, written.status(), written.output());
    assertTrue(written.output().contains("records: 1 container, 0 sowings, 0 photos"));
    assertTrue(
        written
            .output()
            .contains("readings: 100 from 2026-03-01T06:00:00Z to 2026-03-01T07:39:00Z"),
        written.output());
    Path target = folder.resolve("new/data");
    CommandRun restored = restore(target);
    assertEquals(0, restored.status(), restored.output());
    assertEquals(
        List.of("in-use", "manifest.json", "readings.db", "records.db", "restored-settings.yaml"),
        names(target));
    assertEquals(
        List.of(1L), SqliteCopy.row(target.resolve("records.db"), "container", "count(*)"));
    assertEquals(
        List.of(100L), SqliteCopy.row(target.resolve("readings.db"), "reading", "count(*)"));
    assertTrue(
        Files.readString(target.resolve("restored-settings.yaml")).contains("Europe/Berlin"));
    assertEquals(Set.of("readings.db", "records.db"), Manifest.read(target).parts().keySet());
  }

  @Test
  void readingsAreLeftOutOnRequest() {
    CommandRun written = backup("--without-readings");
    assertTrue(written.output().contains("readings: not included"), written.output());
    assertFalse(BackupFile.open(file).manifest().contains(BackupPart.READINGS));
    restore(folder.resolve("new"));
    assertFalse(Files.exists(folder.resolve("new/readings.db")));
  }

  /** The sums of removed readings exist nowhere else. */
  @Test
  void hourlySumsAreIncludedOnceReadingsHaveBeenRemoved() throws IOException {
    SqliteRollups.open(data.resolve("ledger.db")).close();
    backup();
    assertFalse(BackupFile.open(file).manifest().contains(BackupPart.ROLLUPS));
    Files.delete(file);
    new Manifest(Map.of("ledger.db", 5), null, true).write(data, null);
    assertTrue(backup().output().contains("hourly sums"));
    restore(folder.resolve("new"));
    assertTrue(Manifest.read(folder.resolve("new")).rawReadingsRemoved());
    assertTrue(Files.exists(folder.resolve("new/ledger.db")));
  }

  @Test
  void aFolderThatIsNotEmptyIsRefusedAndLeftAsItIs() throws IOException {
    backup();
    List<String> before = names(data);
    CommandRun ended = restore(data);
    assertEquals(1, ended.status());
    assertTrue(ended.output().contains(" is not empty, and nothing in it was changed"));
    assertEquals(before, names(data));
    assertTrue(restore(config).output().contains("is not a folder"));
  }

  @Test
  void aRestoreThatFailsLeavesNothing() throws IOException {
    backup();
    // A right seal and right checksums, but no database: it fails only when the part is opened.
    Path records = folder.resolve("broken/records.db");
    SqliteRecords.open(records).close();
    byte[] content = Files.readAllBytes(records);
    Arrays.fill(content, 4_096, content.length, (byte) 0x5A);
    BackupRewriter.replace(file, "records.db", content);
    Path absent = folder.resolve("absent");
    CommandRun ended = restore(absent);
    assertEquals(1, ended.status());
    assertTrue(ended.output().contains(" is damaged: "), ended.output());
    assertFalse(Files.exists(absent));
    Path empty = Files.createDirectory(folder.resolve("empty"));
    restore(empty);
    assertEquals(List.of("in-use"), names(empty));
  }

  @Test
  void whatAKilledRestoreLeftIsReplaced() throws IOException {
    backup();
    Path target = folder.resolve("new");
    Files.createDirectories(target.resolve("restoring"));
    Files.writeString(target.resolve("restoring/records.db"), "half");
    assertEquals(0, restore(target).status());
    assertFalse(Files.exists(target.resolve("restoring")));
  }

  @Test
  void aFolderInUseIsRefused() throws IOException {
    backup();
    Path target = folder.resolve("used");
    try (DataFolder inUse = DataFolder.open(target)) {
      assertTrue(restore(target).output().contains("another Tepidarium is using"));
      assertEquals(target, inUse.path());
    }
  }

  @Test
  void aFolderWithoutDataIsNamed() throws IOException {
    Files.delete(data.resolve("records.db"));
    assertTrue(backup().output().contains("there is no data in the folder"));
    assertFalse(Files.exists(file));
  }

  @Test
  void recordsInPostgresAreNotInABackupAndItSaysSo() throws IOException {
    Files.writeString(
        config, "recordsUrl: postgresql://db.example.org/garden\nrecordsPassword: SECRET\n");
    CommandRun alone = backup("--without-readings");
    assertEquals(1, alone.status());
    assertTrue(alone.output().contains("Back up the database with pg_dump"), alone.output());
    assertFalse(Files.exists(file));

    CommandRun written = backup();
    assertEquals(0, written.status(), written.output());
    assertTrue(written.output().contains("records: not included"), written.output());
    assertTrue(
        written
            .output()
            .contains("The records in the database garden at db.example.org:5432 are not in it."),
        written.output());
    CommandRun restored = restore(folder.resolve("new"));
    assertEquals(0, restored.status(), restored.output());
    assertEquals(Set.of("readings.db"), Manifest.read(folder.resolve("new")).parts().keySet());
    String settings = Files.readString(folder.resolve("new/restored-settings.yaml"));
    assertTrue(settings.contains("fill them in: recordsPassword"), settings);
    assertFalse(settings.contains("SECRET"), settings);
  }

  @Test
  void aBackupMayHoldTheHourlySumsAlone() throws IOException {
    Files.writeString(
        config,
        """
        recordsUrl: postgresql://db.example.org/garden
        influxUrl: http://db.example.org:8086
        keepRawDays: 90
        """);
    SqliteRollups.open(data.resolve("ledger.db")).close();
    CommandRun written = backup();
    assertEquals(0, written.status(), written.output());
    assertTrue(written.output().contains("hourly sums"), written.output());
    CommandRun restored = restore(folder.resolve("new"));
    assertEquals(0, restored.status(), restored.output());
    assertTrue(Files.exists(folder.resolve("new/ledger.db")));
  }

  @Test
  void noSecretIsInABackup() throws IOException {
    Files.writeString(
        config,
        """
        broker: tcp://127.0.0.1:1999
        brokerUser: ida
        brokerPassword: SECRET-1
        accounts: {jar-1: SECRET-2}
        influxUrl: http://127.0.0.1:8999
        influxToken: SECRET-3
        sites: {North: [https://north.example.org]}
        siteTokens: {North: SECRET-8}
        notices:
          heartbeatUrl: https://example.org/SECRET-4
          webhook: {url: https://example.org/SECRET-5, secret: SECRET-6}
          email: {host: mail.example.org, user: ida, password: SECRET-7, from: a@example.org, to: b@example.org}
        """);
    CommandRun ended = backup();
    assertEquals(0, ended.status(), ended.output());
    assertTrue(
        ended.output().contains("The readings in InfluxDB at http://127.0.0.1:8999 are not"));
    restore(folder.resolve("new"));
    String settings = Files.readString(folder.resolve("new/restored-settings.yaml"));
    assertFalse(settings.contains("SECRET"), settings);
    assertTrue(settings.contains("mail.example.org") && settings.contains("brokerUser: \"ida\""));
    assertTrue(settings.contains("fill them in: brokerPassword, accounts.jar-1"), settings);
    String all = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
    assertFalse(all.contains("SECRET"));
    // The account stays without a password, so that the broker does not let everybody in.
    assertTrue(
        CommandRun.of(
                new Main.CheckConfig(), folder.resolve("new/restored-settings.yaml").toString())
            .output()
            .contains("accounts jar-1 needs a password"));
  }

  /** A new setting whose name sounds like a secret must be listed here or in SettingsCopy. */
  @Test
  void everySettingThatSoundsLikeASecretIsLeftOut() {
    Set<String> found = new TreeSet<>();
    collect("", ConfigFile.class, found);
    collect("notices.", NoticesSection.class, found);
    collect("notices.email.", EmailSection.class, found);
    collect("notices.webhook.", NoticesSection.WebhookSection.class, found);
    found.removeAll(
        Set.of(
            "influxUrl",
            "recordsUrl",
            "readingsUrl",
            "siteTokens",
            "notices.publicUrl",
            "notices.email.passwordEnv",
            "notices.email.passwordFile",
            "notices.webhook.secretEnv",
            "notices.webhook.secretFile"));
    Set<String> secrets = new TreeSet<>(SettingsCopy.SECRETS);
    secrets.removeAll(Set.of("accounts.*", "siteTokens.*"));
    assertEquals(secrets, found);
  }

  private static void collect(String prefix, Class<?> section, Set<String> names) {
    Stream.of(section.getRecordComponents())
        .map(RecordComponent::getName)
        .filter(name -> name.matches("(?i).*(password|secret|token|key|url).*"))
        .forEach(name -> names.add(prefix + name));
  }
}
