package tepidarium.app;

import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The options of commands that work on the data folder while the service is stopped. */
final class FolderOptions {
  /** The settings file in the environment, for commands of an installed service; null if unset. */
  static final String CONFIG_VARIABLE = "${env:TEPIDARIUM_CONFIG}";

  @Option(
      names = "--config",
      paramLabel = "FILE",
      defaultValue = CONFIG_VARIABLE,
      description = "read settings from this file (default: the one in TEPIDARIUM_CONFIG)")
  private @Nullable Path configFile;

  @Option(
      names = "--data",
      paramLabel = "FOLDER",
      description = "the folder of all data (default: ./data)")
  private @Nullable String data;

  /** Reads the configuration from the file, the environment and these options. */
  Config config() {
    Map<String, String> commandLine = data == null ? Map.of() : Map.of("data", data);
    return ConfigReader.read(configFile, System.getenv(), commandLine);
  }
}
