package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A server of the system as a process of its own, which can be stopped and killed at any moment.
 */
final class ServerProcess {
  private static final Duration START_LIMIT = Duration.ofMinutes(2);

  private final List<String> command;
  private final File output;
  private @Nullable Process process;

  /** One that is not started yet; what it says is added to the file. */
  ServerProcess(List<String> command, Path output) {
    this.command = List.copyOf(command);
    this.output = output.toFile();
  }

  /** Starts it and waits until it answers. */
  void start(BooleanSupplier answers) {
    try {
      Process started =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.appendTo(output))
              .start();
      process = started;
      await(command.get(0) + " answers")
          .atMost(START_LIMIT)
          .pollInterval(Duration.ofMillis(20))
          .until(() -> answers(started, answers));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private boolean answers(Process started, BooleanSupplier answers) {
    if (!started.isAlive()) {
      throw new AssertionError(command.get(0) + " ended at once: " + text());
    }
    return answers.getAsBoolean();
  }

  private String text() {
    try {
      return Files.readString(output.toPath());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Stops it in order; nothing where it was never started. */
  void stop() {
    if (process != null) {
      process.destroy();
      awaitEnd(process);
    }
  }

  /** Kills it and its children, as a power cut would; nothing where it was never started. */
  void kill() {
    if (process != null) {
      List<ProcessHandle> children = process.descendants().toList();
      process.destroyForcibly();
      children.forEach(ProcessHandle::destroyForcibly);
      awaitEnd(process);
      children.forEach(child -> child.onExit().join());
    }
  }

  /** Sends a signal to it and its children. */
  void signal(String name) {
    Process running = Objects.requireNonNull(process);
    Stream.concat(Stream.of(running.toHandle()), running.descendants())
        .forEach(each -> signal(name, each));
  }

  static void signal(String name, ProcessHandle process) {
    Command.run(List.of("kill", "-" + name, String.valueOf(process.pid())), new byte[0]);
  }

  /** Waits for the end of a process; its exit status. */
  static int awaitEnd(Process process) {
    try {
      return process.waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
