package tepidarium.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tepidarium.importing.Guess;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportProfile;
import tepidarium.importing.ImportTexts;
import tepidarium.importing.ImportedFile;
import tepidarium.importing.LoggerFile;
import tepidarium.importing.ProfileStore;
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
      names = "--profile",
      paramLabel = "NAME",
      description = "use the settings kept under this name; options beside it win")
  private @Nullable String profile;

  @Option(
      names = "--save-profile",
      paramLabel = "NAME",
      description = "keep the settings under this name, once a file can be read with them")
  private @Nullable String saveProfile;

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

  @Mixin private FolderOptions folderOptions = new FolderOptions();

  @Override
  public Integer call() throws IOException {
    Config config = folderOptions.config();
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    ImportChoices choices = settings.choices();
    choices.options("", config.timeZone(), clock.instant(), ImportTexts.OPTIONS);
    PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
    if (saveProfile != null) {
      ImportProfile.requireName(saveProfile);
    }
    if (preview && profile == null && saveProfile == null) {
      return eachFile(choices, config, clock, out, (source, opened) -> show(opened, out));
    }
    try (ReadingImport importing = ReadingImport.open(config, clock)) {
      return importing(importing, choices, config, clock, out);
    }
  }

  private int importing(
      ReadingImport importing, ImportChoices given, Config config, Clock clock, PrintWriter out)
      throws IOException {
    ProfileStore profiles = importing.profiles();
    ImportChoices choices = profile == null ? given : given.over(profiles.choices(profile));
    FileWork save = savesProfile(profiles, choices, out);
    if (preview) {
      return eachFile(
          choices,
          config,
          clock,
          out,
          (source, opened) -> save.on(source, opened) && show(opened, out));
    }
    CountDownLatch finished = new CountDownLatch(1);
    Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(importing, finished), "stop"));
    try {
      return eachFile(
          choices,
          config,
          clock,
          out,
          (source, opened) ->
              save.on(source, opened) && importing.store(source, opened, fromLine, rejected, out));
    } finally {
      finished.countDown();
    }
  }

  /** Saves the profile at the first file that can be read with it. */
  private FileWork savesProfile(ProfileStore profiles, ImportChoices choices, PrintWriter out) {
    if (saveProfile == null) {
      return (source, opened) -> true;
    }
    ImportProfile kept = new ImportProfile(saveProfile, choices);
    kept.check(ImportTexts.OPTIONS);
    AtomicBoolean saved = new AtomicBoolean();
    return (source, opened) -> {
      if (!saved.getAndSet(true)) {
        profiles.save(kept);
        out.println("  The settings are kept as the profile " + kept.name() + '.');
      }
      return true;
    };
  }

  /** Work on one opened file; returns false to end the import. */
  private interface FileWork {
    boolean on(ImportedFile source, LoggerFile opened) throws IOException;
  }

  private int eachFile(
      ImportChoices choices, Config config, Clock clock, PrintWriter out, FileWork work)
      throws IOException {
    int status = 0;
    for (Path file : files) {
      try {
        ImportedFile source = new ImportedFile(file);
        LoggerFile opened =
            LoggerFile.open(
                source,
                choices.options(
                    source.name(),
                    config.timeZone(),
                    clock.instant().plus(MAX_AHEAD),
                    ImportTexts.OPTIONS));
        printGuesses(file, opened, out);
        boolean complete = work.on(source, opened);
        if (!complete) {
          return STATUS_STOPPED;
        }
      } catch (InvalidInput e) {
        status = refused(file, e, out);
      }
      out.flush();
    }
    return status;
  }

  private static boolean show(LoggerFile opened, PrintWriter out) throws IOException {
    opened.read(new ImportPreview(out));
    out.println("No reading was stored, because of --preview.");
    return true;
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

  private int refused(Path file, InvalidInput problem, PrintWriter out) {
    out.println(file + " was not imported: " + problem.getMessage() + ".");
    if (profile != null) {
      out.println(
          "The profile "
              + profile
              + " was used. Leave it out, or save it again with the settings of this file.");
    }
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
