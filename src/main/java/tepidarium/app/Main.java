package tepidarium.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tepidarium.reading.InvalidInput;
import tepidarium.series.StoreException;
import tepidarium.web.server.WebServer;

/** Parses the command line and runs the service, the demo or another command. */
@Command(
    name = "tepidarium",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    sortOptions = false,
    description = {
      "Monitors sealed, dark, warm, moist germination containers: receives the readings of their"
          + " sensors over MQTT, stores every reading, adds up the heat, and sends alerts.",
      "Without a command, it starts the service with its own MQTT broker and stores, and serves"
          + " the pages."
    },
    footer = {
      "",
      "Every setting can also be in the configuration file, or in the environment as TEPIDARIUM_"
          + " and its name in capitals (TEPIDARIUM_HTTP_PORT). src/docs/settings.md lists all"
          + " settings.",
      "",
      "The start script has three more commands: install makes a service of systemd, uninstall"
          + " removes it, package builds an archive, a Debian package and a container image."
          + " ./tepidarium install --help tells more."
    },
    subcommands = {
      Main.Demo.class,
      Main.CheckConfig.class,
      PasswordCommand.class,
      ImportCommand.class,
      ExportCommand.class,
      MoveCommand.class,
      BackupCommand.class,
      RestoreCommand.class,
      Main.Train.class
    })
public final class Main implements Callable<Integer> {
  @Mixin private Settings settings = new Settings();

  /** Addresses and ports to listen on. */
  static final class Listening {
    @Option(
        names = "--host",
        paramLabel = "ADDRESS",
        description =
            "serve the pages on this address (default: 127.0.0.1; 0.0.0.0 also accepts other"
                + " devices, such as phones)")
    private @Nullable String host;

    @Option(
        names = "--port",
        paramLabel = "PORT",
        description = "serve the pages on this port (default: 8080)")
    private @Nullable String port;

    @Option(
        names = "--mqtt-port",
        paramLabel = "PORT",
        description = "accept sensors on this MQTT port (default: 1883)")
    private @Nullable String mqttPort;

    Map<String, String> settings() {
      Map<String, String> settings = new LinkedHashMap<>();
      put(settings, "httpHost", host);
      put(settings, "httpPort", port);
      put(settings, "mqttPort", mqttPort);
      return settings;
    }
  }

  /** Options of the service itself. */
  static final class Settings {
    @Option(
        names = "--config",
        paramLabel = "FILE",
        defaultValue = FolderOptions.CONFIG_VARIABLE,
        description = "read settings from this YAML file (default: the one in TEPIDARIUM_CONFIG)")
    private @Nullable Path config;

    @Option(
        names = "--data",
        paramLabel = "FOLDER",
        description = "store all data in this folder (default: ./data)")
    private @Nullable String data;

    @Mixin private Listening listening = new Listening();

    @Option(
        names = "--broker",
        paramLabel = "ADDRESS",
        description =
            "use this broker, such as tcp://192.168.1.5:1883, instead of the embedded one")
    private @Nullable String broker;

    @Option(
        names = "--set-aside",
        paramLabel = "PART",
        split = ",",
        description =
            "if this part of the data folder cannot be used, rename it and create an empty one:"
                + " readings.db, records.db, ledger.db, spool.db or broker")
    private List<String> setAside = List.of();

    @Option(
        names = "--trust-clock",
        description =
            "trust the clock of this machine for this start, although it differs from the last"
                + " known time by more than a day")
    private boolean trustClock;

    StartOptions startOptions() {
      Set<DataPart> parts =
          setAside.stream()
              .map(
                  name ->
                      DataPart.of(name)
                          .orElseThrow(
                              () ->
                                  new IllegalStateException(
                                      "--set-aside must be one of "
                                          + DataPart.names()
                                          + ", not "
                                          + name)))
              .collect(Collectors.toSet());
      return new StartOptions(parts, trustClock);
    }

    Config read() {
      Map<String, String> commandLine = listening.settings();
      put(commandLine, "data", data);
      put(commandLine, "broker", broker);
      return ConfigReader.read(config, System.getenv(), commandLine);
    }
  }

  private static void put(Map<String, String> settings, String name, @Nullable String value) {
    if (value != null) {
      settings.put(name, value);
    }
  }

  /** Prints the version of the packaged program. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"tepidarium " + ProductVersion.get()};
    }
  }

  /** Checks a configuration file. */
  @Command(
      name = "check-config",
      mixinStandardHelpOptions = true,
      description = "Checks a configuration file and lists every mistake in it.")
  static final class CheckConfig implements Callable<Integer> {
    @Parameters(paramLabel = "FILE", description = "the configuration file")
    private Path file = Path.of("tepidarium.yaml");

    @Override
    public Integer call() {
      ConfigReader.read(file, System.getenv(), Map.of());
      System.out.println(file + " can be used.");
      return 0;
    }
  }

  /** Runs the demo. */
  @Command(
      name = "demo",
      mixinStandardHelpOptions = true,
      description =
          "Starts the service on a temporary folder, with simulated sensors that publish over"
              + " MQTT: four weeks of history, then live readings.")
  static final class Demo implements Callable<Integer> {
    @Spec private @Nullable CommandSpec spec;

    @Mixin private Listening listening = new Listening();

    @Option(
        names = {"--data", "--config", "--broker"},
        hidden = true,
        description = "refused")
    private @Nullable String refused;

    @Override
    public Integer call() throws Exception {
      if (refused != null && spec != null) {
        throw new ParameterException(
            spec.commandLine(),
            "the demo deletes its data at the end, and has its own broker and settings. Leave out"
                + " --data, --config and --broker, or start without demo.");
      }
      return DemoRun.serve(ConfigReader.read(null, System.getenv(), listening.settings()));
    }
  }

  /**
   * Runs the service briefly so that Java can archive its classes. Used by the build and the start
   * script.
   */
  @Command(
      name = "train",
      hidden = true,
      mixinStandardHelpOptions = true,
      description =
          "Starts the service twice on an empty folder. Each start stores a reading and serves"
              + " pages. Java records the classes that this loads.")
  static final class Train implements Callable<Integer> {
    @Parameters(paramLabel = "FOLDER", description = "an empty folder for the data of this run")
    private Path folder = Path.of("training");

    @Override
    public Integer call() throws Exception {
      TrainingRun.run(folder);
      return 0;
    }
  }

  @Override
  public Integer call() throws Exception {
    // Prepares the pages in parallel: the settings and stores keep only one processor busy.
    Thread preparing = new Thread(WebServer::prepare, "prepare-pages");
    preparing.setDaemon(true);
    preparing.start();
    return serve(settings.read(), settings.startOptions());
  }

  private static int serve(Config config, StartOptions options) throws InterruptedException {
    config.logFormat().use();
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    AtomicReference<Service> running = new AtomicReference<>();
    for (StartOptions wanted = options; ; wanted = StartOptions.NONE) {
      Service service = Service.start(config, clock, wanted);
      if (running.getAndSet(service) == null) {
        Thread stop = new Thread(() -> Objects.requireNonNull(running.get()).close(), "stop");
        Runtime.getRuntime().addShutdownHook(stop);
      }
      announce(config, service);
      // Returns only if this service hands over to another one. It waits then, as after a start.
      service.awaitHandOver();
      service.close();
    }
  }

  private static void announce(Config config, Service service) {
    System.out.println(
        "Tepidarium is ready: "
            + (config.access().tls() == null ? "http://" : "https://")
            + browserHost(config.httpHost())
            + ":"
            + service.httpPort());
  }

  /** Returns the address to open in a browser on this machine. */
  static String browserHost(String host) {
    return host.equals("0.0.0.0") || host.equals("::") ? "127.0.0.1" : host;
  }

  /** Runs the command that the command line names. */
  public static void main(String[] args) {
    LogFormat.start();
    CommandLine commands = new CommandLine(new Main());
    commands.setExecutionExceptionHandler(
        (exception, line, result) -> {
          if (exception instanceof IllegalStateException
              || exception instanceof ConfigException
              || exception instanceof InvalidInput
              || exception instanceof StoreException) {
            line.getErr().println("tepidarium: " + exception.getMessage());
            return 1;
          }
          throw exception;
        });
    System.exit(commands.execute(args));
  }
}
