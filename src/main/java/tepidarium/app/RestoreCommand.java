package tepidarium.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupPart;

/** Restores a backup file into an empty or new data folder. */
@Command(
    name = "restore",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Restores a backup file into an empty or new data folder. Never overwrites data.",
      "src/docs/operation.md tells more."
    })
final class RestoreCommand implements Callable<Integer> {
  @Spec private @Nullable CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "the backup file")
  private Path file = Path.of("backup.zip");

  @Option(
      names = "--data",
      paramLabel = "FOLDER",
      description = "the empty or new folder for the data (default: ./data)")
  private Path data = Path.of("data");

  @Override
  public Integer call() throws IOException {
    BackupFile backup = FolderRestore.restore(file, data);
    PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
    out.println("Restored the backup of " + backup.manifest().createdAt() + " into " + data);
    BackupWords.describe(backup.manifest()).forEach(line -> out.println("  " + line));
    out.println(
        "The settings of that time are in "
            + data.resolve(FolderRestore.SETTINGS)
            + ". Fill in its passwords before you use it with --config.");
    boolean hasSums = backup.manifest().contains(BackupPart.ROLLUPS);
    out.println(
        "Start the service with --data "
            + data
            + (hasSums ? "." : ". It calculates the hourly sums again."));
    out.flush();
    return 0;
  }
}
