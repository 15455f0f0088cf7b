package tepidarium.bench;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Another process that speaks line by line. */
final class Helper implements AutoCloseable {
  private final Process process;
  private final BufferedReader out;
  private final BufferedWriter in;

  private Helper(List<String> command, Map<String, String> environment) {
    ProcessBuilder builder = new ProcessBuilder(command).redirectError(Redirect.INHERIT);
    builder.environment().putAll(environment);
    try {
      process = builder.start();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot start " + command.get(0), e);
    }
    out = process.inputReader(StandardCharsets.UTF_8);
    in = process.outputWriter(StandardCharsets.UTF_8);
    expect("ready");
  }

  /** A program that says "ready". */
  static Helper program(String... command) {
    return new Helper(List.of(command), Map.of());
  }

  /** {@link BareSubscriber}, as small a process as the service is. */
  static Helper bareSubscriber(String broker, int port, Path folder) {
    List<String> command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            BareSubscriber.class.getName(),
            broker,
            String.valueOf(port),
            folder.toString());
    return new Helper(command, Site.environment(Site.SMALL));
  }

  /** Its number among the processes of this machine. */
  long pid() {
    return process.pid();
  }

  /** Says a line and waits for the answer. */
  void ask(String line, String answer) {
    try {
      in.write(line);
      in.newLine();
      in.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    expect(answer);
  }

  /** Waits for a line. */
  void expect(String line) {
    try {
      String said = out.readLine();
      if (!line.equals(said)) {
        throw new IllegalStateException("expected \"" + line + "\", but it said: " + said);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      process.waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
