package tepidarium.packages;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.ServiceProcess;

/** Builds packages and sends readings to the services in them. */
final class Packages {
  static final Path OUT = Path.of("target/package");

  /** The exit status of a Java process that SIGTERM has stopped in order. */
  private static final int STOPPED = 143;

  private Packages() {}

  static void build(String... packages) throws Exception {
    List<String> command = new ArrayList<>(List.of("src/package/build"));
    command.addAll(List.of(packages));
    run(command.toArray(String[]::new));
  }

  /** Runs a command of this machine; what it says. Fails if the command fails. */
  static String run(String... command) throws Exception {
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
    builder.environment().put("TEPIDARIUM_COMPRESSION", "0");
    Process process = builder.start();
    process.getOutputStream().close();
    String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), words);
    return words;
  }

  /** The package whose name ends so. */
  static Path built(String end) throws IOException {
    try (Stream<Path> files = Files.list(OUT)) {
      return files.filter(file -> file.toString().endsWith(end)).findFirst().orElseThrow();
    }
  }

  /**
   * Starts a service on free ports of loopback. It must receive a reading, show it in the API, and
   * stop in order.
   *
   * @param log the folder for its output
   */
  static void receives(Path log, List<String> command) {
    receives(log, command, address -> {});
  }

  /** The same, with a further check while it runs. */
  static void receives(Path log, List<String> command, Check check) {
    int mqtt = Ports.free();
    List<String> listening = new ArrayList<>(command);
    listening.addAll(List.of("--port", "0", "--mqtt-port", "" + mqtt));
    try (ServiceProcess service = ServiceProcess.packaged(log, listening)) {
      Publisher.to(mqtt).send("tepidarium/jar-1", "{\"temperature\":30.2}");
      await()
          .atMost(Duration.ofSeconds(20))
          .until(() -> service.grower().api().get("/api/sensors").toString().contains("jar-1"));
      check.of(service.grower().api().base());
      assertEquals(STOPPED, service.stop());
    }
  }

  /** A check of a running service. */
  interface Check {
    /** Checks the service that has its pages at this address. */
    void of(String address);
  }
}
