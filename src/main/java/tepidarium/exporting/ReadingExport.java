package tepidarium.exporting;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.container.SensorCorrection;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSource;

/**
 * Writes stored readings as text. Without a container, the order is by sensor, then by time. The
 * readings of a container are ordered by placement, then by time. Reads one day of one sensor at a
 * time, which bounds the memory. Readings of uncertain time are left out, because no query returns
 * them. Thread-safe.
 */
public final class ReadingExport {
  private static final Duration PIECE = Duration.ofDays(1);
  private static final Quantity[] QUANTITIES = Quantity.values();

  private final ReadingSource source;
  private final Register register;

  public ReadingExport(ReadingSource source, Register register) {
    this.source = source;
    this.register = register;
  }

  /** A sensor and the time span of the readings to export; the end is excluded. */
  private record ExportPart(SensorId sensor, Instant from, Instant until) {}

  /**
   * Checks the options before anything is written.
   *
   * @throws InvalidInput if there is no such sensor or container
   */
  public void check(ExportOptions options) {
    SensorId sensor = options.sensor();
    if (sensor != null && source.firstAt(sensor, ExportOptions.ALL).isEmpty()) {
      throw new InvalidInput("sensor", "\"" + sensor + "\" has no readings");
    }
    ContainerId container = options.container();
    if (container != null
        && !container.equals(ContainerId.ROOM)
        && register.container(container).isEmpty()) {
      throw new InvalidInput("container", "\"" + container.value() + "\" does not exist");
    }
  }

  /**
   * Writes the readings.
   *
   * @param out receives the text in pieces
   * @return number of readings written
   * @throws tepidarium.series.StoreException when the store cannot answer; part may be written
   */
  public long write(ExportOptions options, Appendable out) throws IOException {
    StringBuilder text = new StringBuilder();
    options.format().appendHeader(text, options.calibrated());
    out.append(text);
    long rows = 0;
    for (ExportPart part : parts(options)) {
      rows += write(part, options, out);
    }
    return rows;
  }

  private List<ExportPart> parts(ExportOptions options) {
    SensorId only = options.sensor();
    ContainerId container = options.container();
    List<ExportPart> parts = new ArrayList<>();
    if (container == null) {
      Set<SensorId> sensors =
          only == null ? new TreeSet<>(source.summaries().keySet()) : Set.of(only);
      sensors.forEach(sensor -> parts.add(new ExportPart(sensor, options.start(), options.end())));
      return parts;
    }
    for (Placement placement : register.placementsIn(container)) {
      Instant until = placement.until();
      Instant end = until == null || until.isAfter(options.end()) ? options.end() : until;
      Instant start =
          placement.from().isBefore(options.start()) ? options.start() : placement.from();
      if (start.isBefore(end) && (only == null || only.equals(placement.sensor()))) {
        parts.add(new ExportPart(placement.sensor(), start, end));
      }
    }
    return parts;
  }

  private long write(ExportPart part, ExportOptions options, Appendable out) throws IOException {
    long rows = 0;
    Instant last = part.until().minusMillis(1);
    Optional<Instant> next = source.firstAt(part.sensor(), new Span(part.from(), last));
    while (next.isPresent()) {
      Instant end = next.get().plus(PIECE).minusMillis(1);
      Span piece = new Span(next.get(), end.isAfter(last) ? last : end);
      StringBuilder text = new StringBuilder();
      rows += append(text, part.sensor(), piece, options);
      out.append(text);
      next =
          end.isBefore(last)
              ? source.firstAt(part.sensor(), new Span(end.plusMillis(1), last))
              : Optional.empty();
    }
    return rows;
  }

  private long append(StringBuilder text, SensorId sensor, Span piece, ExportOptions options) {
    Samples[] columns = columns(sensor, piece, options.calibrated());
    int[] index = new int[columns.length];
    double[] values = new double[columns.length];
    long rows = 0;
    for (long atMs = earliest(columns, index);
        atMs != Long.MAX_VALUE;
        atMs = earliest(columns, index)) {
      Arrays.fill(values, Double.NaN);
      for (int i = 0; i < columns.length; i++) {
        if (index[i] < columns[i].size() && columns[i].atMs(index[i]) == atMs) {
          values[i] = columns[i].value(index[i]);
          index[i]++;
        }
      }
      options.format().appendRow(text, sensor, atMs, values);
      rows++;
    }
    return rows;
  }

  /** The samples of each quantity, in the order of the enum. */
  private Samples[] columns(SensorId sensor, Span piece, boolean calibrated) {
    Map<Quantity, Samples> found = source.read(sensor, piece);
    SensorCorrection correction = calibrated ? register.correction(sensor) : SensorCorrection.NONE;
    Samples[] columns = new Samples[QUANTITIES.length];
    for (int i = 0; i < columns.length; i++) {
      Samples raw = found.getOrDefault(QUANTITIES[i], Samples.EMPTY);
      columns[i] = correction.corrected(QUANTITIES[i], raw);
    }
    return columns;
  }

  /** The next instant of all columns; the largest number if all are at their end. */
  private static long earliest(Samples[] columns, int[] index) {
    long earliest = Long.MAX_VALUE;
    for (int i = 0; i < columns.length; i++) {
      if (index[i] < columns[i].size()) {
        earliest = Math.min(earliest, columns[i].atMs(index[i]));
      }
    }
    return earliest;
  }
}
