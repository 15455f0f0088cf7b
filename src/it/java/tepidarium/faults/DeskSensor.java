package tepidarium.faults;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * The sensor for the desk (firmware-notes/desk), run as a process. Its memory lies in a file, so a
 * further run continues as a node does after sleep.
 */
final class DeskSensor {
  static final String NAME = "desk-1";

  private static final Pattern READING =
      Pattern.compile("(\\d+) reading:(?: temperature (\\S+) degC)?.*");

  /**
   * One measurement, as the serial output tells it.
   *
   * @param uptimeSeconds by the sensor's own clock
   * @param temperature as printed, in °C; "-" where the chip's bytes were disturbed
   */
  record Measured(long uptimeSeconds, String temperature) {}

  private final Path folder;
  private final Path program;
  private final List<String> options;

  private DeskSensor(Path folder, Path program, List<String> options) {
    this.folder = folder;
    this.program = program;
    this.options = options;
  }

  /** Compiles it into a folder; the options are used in each run. */
  static DeskSensor compiled(Path folder, List<String> options) {
    Path program = folder.resolve("desk");
    try {
      Process compiler =
          new ProcessBuilder("firmware-notes/desk/build", program.toAbsolutePath().toString())
              .inheritIO()
              .start();
      if (compiler.waitFor() != 0) {
        throw new AssertionError("the sensor for the desk does not compile");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
    return new DeskSensor(folder, program, options);
  }

  /** Runs it for a time by its own clock, in full. */
  void run(int seconds, String... more) {
    run(seconds, Duration.ofMinutes(20), more);
  }

  /** Runs it for a time by its own clock, and kills it if it still runs after a real time. */
  void run(int seconds, Duration killAfter, String... more) {
    List<String> command = new ArrayList<>(List.of(program.toString()));
    command.addAll(options);
    command.addAll(List.of("--for", "" + seconds, "--memory", folder.resolve("rtc").toString()));
    command.addAll(List.of(more));
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectError(ProcessBuilder.Redirect.INHERIT)
              .redirectOutput(ProcessBuilder.Redirect.appendTo(log().toFile()))
              .start();
      if (!process.waitFor(killAfter.toMillis(), TimeUnit.MILLISECONDS)) {
        process.destroyForcibly().waitFor();
      } else if (process.exitValue() != 0) {
        throw new AssertionError("the sensor for the desk ended with " + process.exitValue());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private Path log() {
    return folder.resolve("serial.txt");
  }

  /** The serial output of all runs so far. */
  List<String> lines() {
    try {
      return Files.readAllLines(log());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** All measurements so far, in their order. */
  List<Measured> measured() {
    return lines().stream().flatMap(DeskSensor::measuredIn).toList();
  }

  private static Stream<Measured> measuredIn(String line) {
    Matcher reading = READING.matcher(line);
    return reading.matches()
        ? Stream.of(
            new Measured(
                Long.parseLong(reading.group(1)),
                reading.group(2) == null ? "-" : reading.group(2)))
        : Stream.empty();
  }
}
