package tepidarium.app;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tepidarium.container.ContainerId;
import tepidarium.exporting.ExportFormat;
import tepidarium.exporting.ExportOptions;
import tepidarium.exporting.ReadingExport;
import tepidarium.importing.Amount;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

/**
 * Exports readings from the data folder. The service must be stopped, because the command locks the
 * folder as the service does; a running service exports through its API.
 */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Exports readings from the data folder as CSV or InfluxDB line protocol. The import reads"
          + " both.",
      "Stop the service first. While it runs, use the page Files or GET /api/export/readings."
          + " src/docs/export.md tells more."
    })
final class ExportCommand implements Callable<Integer> {
  private final OutputStream standardOutput;

  @Spec private @Nullable CommandSpec spec;

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      description = "csv or line-protocol (default: csv)")
  private String format = ExportFormat.CSV.key();

  @Option(
      names = "--from",
      paramLabel = "TIME",
      description =
          "only readings from this time on, such as 2026-03-01 or 2026-03-01T06:00Z; a time without"
              + " an offset is in the zone of the setting timeZone")
  private @Nullable String from;

  @Option(names = "--to", paramLabel = "TIME", description = "only readings before this time")
  private @Nullable String to;

  @Option(
      names = "--sensor",
      paramLabel = "NAME",
      description = "only readings of this sensor (default: all sensors)")
  private @Nullable String sensor;

  @Option(
      names = "--container",
      paramLabel = "ID",
      description = "only readings of sensors while they were in this container")
  private @Nullable String container;

  @Option(
      names = "--calibrated",
      description = "apply the calibration (default: raw readings, as they are stored)")
  private boolean calibrated;

  @Option(
      names = "--output",
      paramLabel = "FILE",
      description = "write to this file and replace it (default: standard output)")
  private @Nullable Path output;

  @Mixin private FolderOptions folderOptions = new FolderOptions();

  ExportCommand() {
    this(System.out);
  }

  ExportCommand(OutputStream standardOutput) {
    this.standardOutput = standardOutput;
  }

  @Override
  public Integer call() throws IOException {
    Config config = folderOptions.config();
    ExportOptions options = options(config.timeZone());
    if (!config.keeping().recordsElsewhere()
        && !Files.exists(config.data().resolve(DataPart.RECORDS.fileName()))) {
      throw new InvalidInput(
          "there is no data in the folder "
              + config.data().toAbsolutePath()
              + ". Name the folder of the service with --data");
    }
    Clock clock = Clock.tickMillis(ZoneOffset.UTC);
    try (RunningParts running = new RunningParts()) {
      OpenFolder folder = OpenFolder.open(config, StartOptions.NONE, clock, running);
      Stores stores = Stores.open(config, folder, clock, running);
      ContainerData containers = ContainerData.over(stores, config.maxGap(), clock);
      ReadingExport export = new ReadingExport(stores.storage().source(), containers.register());
      export.check(options);
      write(export, options);
    }
    return 0;
  }

  private void write(ReadingExport export, ExportOptions options) throws IOException {
    Path file = output;
    if (file == null) {
      Writer out = writerTo(standardOutput);
      export.write(options, out);
      out.flush();
      return;
    }
    Path part = file.resolveSibling(file.getFileName() + ".part");
    long rows;
    try {
      try (Writer writer = writerTo(Files.newOutputStream(part))) {
        rows = export.write(options, writer);
      }
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException | RuntimeException e) {
      Files.deleteIfExists(part);
      throw e;
    }
    PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
    out.printf("%s written to %s%n", Amount.of(rows, "reading"), file);
    out.flush();
  }

  /** A writer in UTF-8, whatever the character set of this machine is. */
  private static Writer writerTo(OutputStream out) {
    return new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
  }

  private ExportOptions options(ZoneId zone) {
    return new ExportOptions(
        ExportFormat.of(format),
        from == null ? null : time("--from", from, zone),
        to == null ? null : time("--to", to, zone),
        sensor == null ? null : new SensorId(sensor),
        container == null ? null : new ContainerId(container),
        calibrated);
  }

  private static Instant time(String option, String text, ZoneId zone) {
    try {
      if (text.length() <= "2026-03-01".length()) {
        return LocalDate.parse(text).atStartOfDay(zone).toInstant();
      }
      boolean hasOffset = text.matches(".*(?:[Zz]|[+-]\\d\\d:?\\d\\d)");
      return hasOffset
          ? OffsetDateTime.parse(text).toInstant()
          : LocalDateTime.parse(text).atZone(zone).toInstant();
    } catch (DateTimeException e) {
      throw new InvalidInput(
          option
              + " must be a day such as 2026-03-01 or a time such as 2026-03-01T06:00, not \""
              + text
              + '"',
          e);
    }
  }
}
