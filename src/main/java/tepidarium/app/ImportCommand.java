package tepidarium.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tepidarium.importing.Guess;
import tepidarium.importing.ImportOptions;
import tepidarium.importing.ImportedFile;
import tepidarium.importing.LoggerFile;
import tepidarium.reading.InvalidInput;

/**
 * Imports readings from files of other loggers into the data folder. The service must be stopped:
 * the command locks the folder as the service does.
 */
@Command(
    name = "import",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Imports readings from files of other loggers (CSV, InfluxDB line protocol) into the data"
          + " folder. Guesses the form of each file and prints the reason for each guess.",
      "Stop the service first; --preview works beside it. src/docs/import.md tells more."
    })
final class ImportCommand implements Callable<Integer> {
  /** Readings may be this much ahead of the clock of this machine. */
  private static final Duration MAX_AHEAD = Duration.ofMinutes(5);

  private static final int STATUS_STOPPED = 130;

  @Spec private @Nullable CommandSpec spec;

  @Parameters(paramLabel = "FILE", arity = "1..*", description = "the files")
  private List<Path> files = List.of();

  @Option(
      names = "--preview",
      description =
          "print the guesses and the first 10 rows as they would be stored; store nothing")
  private boolean preview;

  @Mixin private ImportSettings settings = new ImportSettings();

  @Option(
      names = "--from-line",
      paramLabel = "LINE",
      description = "store only rows from this line on, after a stopped import")
  private long fromLine = 1;

  @Option(
      names = "--rejected",
      paramLabel = "FOLDER",
      description = "write rejected rows into this folder (default: the folder of the file)")
  private @Nullable Path rejected;

  @Option(names = "--config", paramLabel = "FILE", description = "read settings from this file")
  private @Nullable Path configFile;

  @Option(
      names = "--data",
      paramLabel = "FOLDER",
      description = "the folder of all data (default: ./data)")
  private @Nullable String data;

  @Override
  public Integer call() throws IOException {
    Map<String, String> commandLine = new LinkedHashMap<>();
    if (data != null) {
      commandLine.put("data", data);
    }
    Config config = ConfigReader.read(configFile, System.getenv(), commandLine);
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    settings.options("", config.timeZone(), clock.instant());
    PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
    return preview ? preview(config, clock, out) : store(config, clock, out);
  }

  private int preview(Config config, Clock clock, PrintWriter out) throws IOException {
    int status = 0;
    for (Path file : files) {
      try {
        LoggerFile opened = open(new ImportedFile(file), config, clock);
        printGuesses(file, opened, out);
        opened.read(new ImportPreview(out));
        out.println("Nothing was stored, because of --preview.");
      } catch (InvalidInput e) {
        status = refused(file, e, out);
      }
      out.flush();
    }
    return status;
  }

  private int store(Config config, Clock clock, PrintWriter out) throws IOException {
    int status = 0;
    CountDownLatch finished = new CountDownLatch(1);
    try (ReadingImport importing = ReadingImport.open(config, clock)) {
      Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(importing, finished), "stop"));
      for (Path file : files) {
        try {
          ImportedFile source = new ImportedFile(file);
          LoggerFile opened = open(source, config, clock);
          printGuesses(file, opened, out);
          boolean complete = importing.store(source, opened, fromLine, rejected, out);
          if (!complete) {
            return STATUS_STOPPED;
          }
        } catch (InvalidInput e) {
          status = refused(file, e, out);
        }
        out.flush();
      }
    } finally {
      finished.countDown();
    }
    return status;
  }

  /** Stores the rows that were read, at most for a minute, before the process ends. */
  private static void stop(ReadingImport importing, CountDownLatch finished) {
    importing.stop();
    try {
      boolean ended = finished.await(1, TimeUnit.MINUTES);
      if (!ended) {
        System.err.println("tepidarium: the last rows were not stored within a minute");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private LoggerFile open(ImportedFile file, Config config, Clock clock) throws IOException {
    ImportOptions options =
        settings.options(file.name(), config.timeZone(), clock.instant().plus(MAX_AHEAD));
    return LoggerFile.open(file, options);
  }

  private static int refused(Path file, InvalidInput problem, PrintWriter out) {
    out.println(file + " was not imported: " + problem.getMessage() + ".");
    return 1;
  }

  private static void printGuesses(Path file, LoggerFile opened, PrintWriter out) {
    out.println(file + ":");
    for (Guess guess : opened.guesses()) {
      out.println("  " + guess.what() + ": " + guess.value() + " (" + guess.reason() + ')');
    }
    out.flush();
  }
}
