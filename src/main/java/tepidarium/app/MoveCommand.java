package tepidarium.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Copies readings and records into the stores that another settings file names. */
@Command(
    name = "move",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Copies all readings and records into the stores that another settings file names, such as"
          + " from the data folder to PostgreSQL or back. Deletes nothing. It can be stopped at any"
          + " time; the next run goes on where it was.",
      "While the service runs, only readings are copied. Stop it, and run the command once more.",
      "Ends with 0 when everything is copied and verified, with 3 when it must be run once more"
          + " after the service is stopped, and with 1 after a failure. src/docs/move.md tells"
          + " more."
    })
final class MoveCommand implements Callable<Integer> {
  /** Variables of the present stores. They do not name the new ones. */
  private static final List<String> STORES =
      List.of("RECORDS_", "READINGS_", "INFLUX_", "STANDBY").stream()
          .map("TEPIDARIUM_"::concat)
          .toList();

  @Spec private @Nullable CommandSpec spec;

  @Option(
      names = "--to",
      paramLabel = "CONFIG",
      required = true,
      description =
          "the settings file that names the new stores; the service is started with it later."
              + " Variables of the environment that name stores do not count for it")
  private Path target = Path.of("new.yaml");

  @Mixin private FolderOptions folderOptions = new FolderOptions();

  @Override
  public Integer call() throws IOException {
    Config from = folderOptions.config();
    Config to = target(target, System.getenv(), from.data());
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    return new Move(from, to, clock, Objects.requireNonNull(spec).commandLine().getOut()).run();
  }

  /** Reads the settings of the new stores. The data folder stays unless they name another one. */
  static Config target(Path file, Map<String, String> environment, Path data) {
    Map<String, String> others =
        environment.entrySet().stream()
            .filter(one -> STORES.stream().noneMatch(one.getKey()::startsWith))
            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    Config config = ConfigReader.read(file, others, Map.of());
    return config.sources().place("data") == SettingsSources.Place.NOWHERE
        ? ConfigReader.read(file, others, Map.of("data", data.toString()))
        : config;
  }
}
