package tepidarium.it;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Runs a program of the system to its end. A program that is missing fails the test by name. */
final class Command {
  private static final int LIMIT_SECONDS = 60;

  /** How a program ended and what it said. */
  record Ended(int status, String output) {}

  private Command() {}

  /** The arguments, once the program they begin with is known to be there. */
  static List<String> of(String program, String debianPackage, List<String> arguments) {
    Path path = Path.of(program);
    if (!Files.isExecutable(path)) {
      throw new AssertionError(
          program + " is missing: install the Debian package " + debianPackage);
    }
    return java.util.stream.Stream.concat(java.util.stream.Stream.of(program), arguments.stream())
        .toList();
  }

  /** Runs it, and fails the test if it does not end well. */
  static void succeed(List<String> command) {
    Ended ended = run(command, new byte[0]);
    if (ended.status() != 0) {
      throw new AssertionError(command + " failed: " + ended.output());
    }
  }

  static Ended run(List<String> command, byte[] input) {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      try (OutputStream in = process.getOutputStream()) {
        in.write(input);
      } catch (IOException e) {
        // It ended before it had read everything; its status and its words tell why.
      }
      String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      if (!process.waitFor(LIMIT_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new AssertionError(command + " did not end within " + LIMIT_SECONDS + " s");
      }
      return new Ended(process.exitValue(), output);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot run " + command, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
