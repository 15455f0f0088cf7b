package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The service as a process of its own, which can be killed at any moment. */
public final class ServiceProcess implements AutoCloseable {
  /** The environment variable with options for the Java process. */
  public static final String JAVA_OPTIONS = "JDK_JAVA_OPTIONS";

  private static final String READY = "Tepidarium is ready: ";

  private final Process process;
  private final Path output;

  private ServiceProcess(Process process, Path output) {
    this.process = process;
    this.output = output;
  }

  /** Starts it and waits until it listens to its broker, all on loopback. */
  public static ServiceProcess start(Path data, int mqttPort, String broker) {
    return start(data, mqttPort, broker, Map.of());
  }

  /**
   * Starts it with further settings, under their names in the environment, and further arguments.
   */
  public static ServiceProcess start(
      Path data, int mqttPort, String broker, Map<String, String> settings, String... more) {
    Path log = data.toAbsolutePath().getParent();
    return start(log, data, mqttPort, broker, settings, List.of(more));
  }

  /** Starts it with what it says in a file of another folder, since its own may not be writable. */
  public static ServiceProcess start(Path log, Path data, int mqttPort, String broker) {
    return start(log, data, mqttPort, broker, Map.of(), List.of());
  }

  /**
   * Starts a packaged program with a Java run time of its own. It must listen on loopback.
   *
   * @param log the folder for its output
   * @param command the program with its arguments
   */
  public static ServiceProcess packaged(Path log, List<String> command) {
    // Without what would let it find a JDK.
    return start(
        log, command, Map.of("PATH", "/usr/sbin:/usr/bin:/sbin:/bin", "JAVA_HOME", "/none"));
  }

  private static ServiceProcess start(
      Path log,
      Path data,
      int mqttPort,
      String broker,
      Map<String, String> settings,
      List<String> more) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(launch());
    command.addAll(
        List.of("--data=" + data, "--port=0", "--mqtt-port=" + mqttPort, "--broker=" + broker));
    command.addAll(more);
    Map<String, String> environment = new HashMap<>();
    // The load tests invent more sensors than a household has.
    environment.put("TEPIDARIUM_MAX_SENSORS", "20000");
    // One client of theirs stands for many sensors.
    environment.put("TEPIDARIUM_CLIENT_MESSAGES_PER_SECOND", "1000000");
    environment.put("TEPIDARIUM_CLIENT_KILOBYTES_PER_SECOND", "1000000");
    // Not on the command line, where it would win over a heap that the settings ask for.
    environment.put(JAVA_OPTIONS, "-Xmx256m -Xss512k -XX:+UseSerialGC");
    environment.putAll(settings);
    return start(log, command, environment);
  }

  private static ServiceProcess start(
      Path log, List<String> command, Map<String, String> environment) {
    try {
      Path output = Files.createTempFile(log, "service", ".out");
      ProcessBuilder builder =
          new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(output.toFile());
      builder.environment().put("TEPIDARIUM_MQTT_HOST", "127.0.0.1");
      builder.environment().putAll(environment);
      ServiceProcess service = new ServiceProcess(builder.start(), output);
      try {
        service.awaitReady();
      } catch (RuntimeException | AssertionError e) {
        service.kill();
        throw e;
      }
      return service;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The options for Java up to the program. The build sets them for its integration tests; without
   * the build the program comes from this process's class path.
   */
  public static List<String> launch() {
    String ofTheBuild = System.getProperty("tepidarium.launch");
    return ofTheBuild == null
        ? List.of("-cp", System.getProperty("java.class.path"), "tepidarium.app.Main")
        : List.of(ofTheBuild.strip().split(" +"));
  }

  private void awaitReady() {
    await("the service is ready")
        .atMost(Duration.ofMinutes(3))
        .until(
            () -> {
              if (!process.isAlive()) {
                throw new AssertionError("the service ended: " + Files.readString(output));
              }
              return Files.readString(output).contains(READY);
            });
    grower().awaitBroker();
  }

  public Grower grower() {
    try {
      String url =
          Files.readString(output)
              .lines()
              .filter(line -> line.startsWith(READY))
              .findFirst()
              .orElseThrow()
              .substring(READY.length());
      return new Grower(new Api(url));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public boolean isAlive() {
    return process.isAlive();
  }

  /** Its number among the processes of this machine. */
  public long pid() {
    return process.pid();
  }

  /** Ends it without any warning. */
  public void kill() {
    process.destroyForcibly();
    ServerProcess.awaitEnd(process);
  }

  /** Asks it to end, and waits; its exit status. */
  public int stop() {
    process.destroy();
    return ServerProcess.awaitEnd(process);
  }

  @Override
  public void close() {
    kill();
  }
}
