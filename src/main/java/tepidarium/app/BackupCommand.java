package tepidarium.app;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupPart;
import tepidarium.backup.BackupSource;
import tepidarium.backup.BackupWriter;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.InvalidInput;
import tepidarium.sqlite.NativeLibrary;

/** Writes the data folder into one backup file, also while the service uses the folder. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Writes records, readings and settings (without passwords) into one file, and checks it.",
      "The service may run meanwhile. src/docs/operation.md tells more."
    })
final class BackupCommand implements Callable<Integer> {
  @Spec private @Nullable CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "the new file, such as garden.zip")
  private Path file = Path.of("backup.zip");

  @Option(
      names = "--without-readings",
      description = "leave out the readings: only records and settings")
  private boolean withoutReadings;

  @Mixin private FolderOptions folderOptions = new FolderOptions();

  @Override
  public Integer call() {
    Config config = folderOptions.config();
    BackupSource source = source(config, withoutReadings);
    if (source.parts().isEmpty()) {
      throw new InvalidInput(
          "the records are in the database "
              + config.keeping().records()
              + ", and no readings are to be backed up. Back up the database with pg_dump");
    }
    if (Files.isDirectory(config.data())) {
      NativeLibrary.unpackInto(config.data().resolve("native"));
    }
    BackupFile written =
        new BackupWriter(Clock.tickMillis(ZoneOffset.UTC)).write(source, file.toAbsolutePath());
    PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
    out.println("Backup written and checked: " + file + " (" + BackupWords.size(written) + ")");
    BackupWords.describe(written.manifest()).forEach(line -> out.println("  " + line));
    PostgresAddress records = config.keeping().records();
    if (records != null) {
      out.println(
          "The records in the database " + records + " are not in it. Back them up with pg_dump.");
    }
    String server = config.keeping().readingsServer();
    if (server != null && !withoutReadings) {
      out.println(
          "The readings in "
              + server
              + " are not in it. Back them up with "
              + readingsTools(config.keeping())
              + ", or with export.");
    }
    out.flush();
    return 0;
  }

  private static String readingsTools(Config.Keeping keeping) {
    if (keeping.cassandra() != null) {
      return "nodetool snapshot on every node";
    }
    return keeping.readings() == null ? "the tools of InfluxDB" : "pg_dump";
  }

  /**
   * Selects the parts to back up. The hourly sums can be recalculated, unless old raw readings have
   * been removed.
   */
  static BackupSource source(Config config, boolean withoutReadings) {
    Set<BackupPart> parts = EnumSet.noneOf(BackupPart.class);
    if (!config.keeping().recordsElsewhere()) {
      parts.add(BackupPart.RECORDS);
    }
    if (!withoutReadings) {
      if (config.keeping().readingsServer() == null) {
        parts.add(BackupPart.READINGS);
      }
      Manifest manifest = Manifest.read(config.data());
      if (config.keeping().rawDays() != null
          || (manifest != null && manifest.rawReadingsRemoved())) {
        parts.add(BackupPart.ROLLUPS);
      }
    }
    return new BackupSource(
        config.data(), parts, config.backups().settings(), ProductVersion.get());
  }
}
