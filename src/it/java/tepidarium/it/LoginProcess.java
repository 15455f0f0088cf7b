package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** The service as a process that other machines may reach, and the command for its password. */
public final class LoginProcess implements AutoCloseable {
  private static final String READY = "Tepidarium is ready: ";

  private final Path data;
  private final Path output;
  private final Process process;

  private LoginProcess(Path data, Path output, Process process) {
    this.data = data;
    this.output = output;
    this.process = process;
  }

  /** Starts it on all addresses of this machine. */
  public static LoginProcess start(Path data) throws IOException {
    Path output = Files.createTempFile(data.toAbsolutePath().getParent(), "login", ".out");
    List<String> arguments =
        List.of("--data=" + data, "--host=0.0.0.0", "--port=0", "--mqtt-port=" + Ports.free());
    Process process =
        program(arguments).redirectErrorStream(true).redirectOutput(output.toFile()).start();
    LoginProcess started = new LoginProcess(data, output, process);
    await("the service is ready")
        .atMost(Duration.ofMinutes(3))
        .until(() -> !process.isAlive() || started.output().contains(READY));
    return started;
  }

  /** Sets a password with the command; returns its output. */
  public String setPassword(String password) throws IOException, InterruptedException {
    Process command =
        program(List.of("password", "--data=" + data)).redirectErrorStream(true).start();
    try (OutputStream in = command.getOutputStream()) {
      in.write((password + '\n').getBytes(StandardCharsets.UTF_8));
    }
    String said = new String(command.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (command.waitFor() != 0) {
      throw new AssertionError("the command password failed: " + said);
    }
    return said;
  }

  private static ProcessBuilder program(List<String> arguments) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(ServiceProcess.launch());
    command.addAll(arguments);
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("TEPIDARIUM_MQTT_HOST", "127.0.0.1");
    builder.environment().put("JDK_JAVA_OPTIONS", "-Xmx96m -XX:+UseSerialGC");
    return builder;
  }

  /** What it printed and logged so far. */
  public String output() {
    try {
      return Files.readString(output);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public String url() {
    return output()
        .lines()
        .filter(line -> line.startsWith(READY))
        .findFirst()
        .orElseThrow(() -> new AssertionError("the service ended: " + output()))
        .substring(READY.length());
  }

  @Override
  public void close() {
    process.destroy();
    ServerProcess.awaitEnd(process);
  }
}
