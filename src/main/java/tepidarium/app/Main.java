package tepidarium.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
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
import tepidarium.series.StoreException;
import tepidarium.web.server.WebServer;

/** The commands. */
@Command(
    name = "tepidarium",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    sortOptions = false,
    description = {
      "Watches sealed, dark, warm, moist germination containers: listens to the sensors inside"
          + " them over MQTT, keeps every reading, adds up the heat, and warns in time.",
      "Without a command it starts the service, with its own MQTT broker and stores, and serves"
          + " the pages."
    },
    footer = {
      "",
      "Every setting can also stand in the configuration file, or in the environment as"
          + " TEPIDARIUM_ and its name in capitals (TEPIDARIUM_HTTP_PORT). src/docs/settings.md lists"
          + " them."
    },
    subcommands = {Main.Demo.class, Main.CheckConfig.class, Main.Train.class})
public final class Main implements Callable<Integer> {
  @Mixin private Settings settings = new Settings();

  /** Where to listen. */
  static final class Listening {
    @Option(
        names = "--host",
        paramLabel = "ADDRESS",
        description =
            "serve the pages on this address (default: 127.0.0.1; 0.0.0.0 lets phones in)")
    private @Nullable String host;

    @Option(
        names = "--port",
        paramLabel = "PORT",
        description = "serve the pages on this port (default: 8080)")
    private @Nullable String port;

    @Option(
        names = "--mqtt-port",
        paramLabel = "PORT",
        description = "let sensors publish to this port (default: 1883)")
    private @Nullable String mqttPort;

    Map<String, String> given() {
      Map<String, String> given = new LinkedHashMap<>();
      put(given, "httpHost", host);
      put(given, "httpPort", port);
      put(given, "mqttPort", mqttPort);
      return given;
    }
  }

  /** Options of the service itself. */
  static final class Settings {
    @Option(
        names = "--config",
        paramLabel = "FILE",
        description = "read settings from this YAML file")
    private @Nullable Path config;

    @Option(
        names = "--data",
        paramLabel = "FOLDER",
        description = "keep everything in this folder (default: ./data)")
    private @Nullable String data;

    @Mixin private Listening listening = new Listening();

    @Option(
        names = "--broker",
        paramLabel = "ADDRESS",
        description =
            "listen to this broker, such as tcp://192.168.1.5:1883, instead of the embedded one")
    private @Nullable String broker;

    @Option(
        names = "--set-aside",
        paramLabel = "PART",
        split = ",",
        description =
            "give a part of the data folder that cannot be used another name and begin an empty"
                + " one: readings.db, records.db, ledger.db, spool.db or broker")
    private List<String> setAside = List.of();

    @Option(
        names = "--trust-clock",
        description =
            "take the clock of this machine for right although it is more than a day away from"
                + " the last instant seen; for one start")
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
                                      "--set-aside takes one of "
                                          + DataPart.names()
                                          + ", not "
                                          + name)))
              .collect(Collectors.toSet());
      return new StartOptions(parts, trustClock);
    }

    Config read() {
      Map<String, String> commandLine = listening.given();
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

  /** The version of the packaged program. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"tepidarium " + ProductVersion.get()};
    }
  }

  /** Only reads the settings. */
  @Command(
      name = "check-config",
      mixinStandardHelpOptions = true,
      description = "Says whether a configuration file can be used, and what is wrong with it.")
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

  /** The invented scenario. */
  @Command(
      name = "demo",
      mixinStandardHelpOptions = true,
      description =
          "Starts the service on a throw-away folder, with invented sensors that publish real"
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
            "the demo keeps nothing and has its own broker and settings:"
                + " leave out --data, --config and --broker, or start without demo");
      }
      return DemoRun.serve(ConfigReader.read(null, System.getenv(), listening.given()));
    }
  }

  /** Used while building. */
  @Command(
      name = "train",
      hidden = true,
      mixinStandardHelpOptions = true,
      description =
          "Starts the service once on an empty folder, takes a reading, serves a page and ends."
              + " Java writes the archive of loaded classes meanwhile.")
  static final class Train implements Callable<Integer> {
    @Parameters(paramLabel = "FOLDER", description = "an empty folder for the data of this run")
    private Path folder = Path.of("training");

    @Override
    public Integer call() throws Exception {
      TrainingRun.in(folder);
      return 0;
    }
  }

  @Override
  public Integer call() throws Exception {
    // Reading the settings and opening the stores leave a processor free.
    Thread preparing = new Thread(WebServer::prepare, "prepare-pages");
    preparing.setDaemon(true);
    preparing.start();
    return serve(settings.read(), settings.startOptions());
  }

  private static int serve(Config config, StartOptions options) throws InterruptedException {
    CountDownLatch stopped = new CountDownLatch(1);
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    Service service = Service.start(config, clock, options);
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  service.close();
                  stopped.countDown();
                },
                "stop"));
    System.out.println(
        "Tepidarium is ready: http://" + shown(config.httpHost()) + ":" + service.httpPort());
    stopped.await();
    return 0;
  }

  /** The address to open for who sits at this machine. */
  static String shown(String host) {
    return host.equals("0.0.0.0") || host.equals("::") ? "127.0.0.1" : host;
  }

  /** Starts what the command line asks for. */
  public static void main(String[] args) {
    CommandLine commands = new CommandLine(new Main());
    commands.setExecutionExceptionHandler(
        (exception, line, result) -> {
          if (exception instanceof IllegalStateException
              || exception instanceof ConfigException
              || exception instanceof StoreException) {
            line.getErr().println("tepidarium: " + exception.getMessage());
            return 1;
          }
          throw exception;
        });
    System.exit(commands.execute(args));
  }
}
