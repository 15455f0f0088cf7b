package tepidarium.importing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.ImportTexts.Setting;
import tepidarium.ingest.SensorNames;
import tepidarium.ingest.Unit;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/** Reads the rows of a table as readings. Not thread-safe. */
final class CsvRows {
  private static final int MAX_SENSORS = 20_000;

  /** A longer row has a quote that is not closed: the rows after it would count as its text. */
  private static final int MAX_LINES_OF_ROW = 20;

  private static final int MAX_TEXT = 1_000;

  private static final long DAY_MS = 86_400_000;
  private static final long NO_TIME = Long.MIN_VALUE;
  private static final long EARLIEST_MS = Reading.EARLIEST.toEpochMilli();

  /** A sensor that rows name, and its last instants. */
  private static final class RowSensor {
    private final SensorId id;
    private final LocalTimes.Previous previous = new LocalTimes.Previous();

    RowSensor(SensorId id) {
      this.id = id;
    }
  }

  private final CsvPlan plan;
  private final ImportTexts texts;
  private final long latestMs;
  private final LocalTimes localTimes;
  private final DateTimeText text = new DateTimeText();
  private final Map<String, RowSensor> sensors = new HashMap<>();
  private final Set<SensorId> ids = new HashSet<>();
  private final RowSensor fileSensor;
  private final List<List<Column>> groups;
  private String problem = "";

  CsvRows(CsvPlan plan, ImportOptions options) {
    this.plan = plan;
    this.texts = options.texts();
    this.latestMs = options.latest().toEpochMilli();
    this.localTimes = new LocalTimes(plan.time().zone(), plan.time().newestFirst());
    this.fileSensor = new RowSensor(plan.sensor());
    Map<String, List<Column>> bySensor = new LinkedHashMap<>();
    for (Column column : plan.columns()) {
      SensorId sensor = column.sensor();
      bySensor
          .computeIfAbsent(sensor == null ? "" : sensor.name(), name -> new ArrayList<>())
          .add(column);
    }
    this.groups = List.copyOf(bySensor.values());
  }

  /** Adds every date of a column to a guess. */
  static void addDates(
      Source source, Charset charset, LoggerTable table, int column, DateOrderGuess guess)
      throws IOException {
    DateTimeText text = new DateTimeText();
    try (LimitedReader reader = new LimitedReader(FileEncoding.open(source, charset));
        CSVParser parser = TableFinder.format(table.delimiter()).parse(reader)) {
      for (CSVRecord row : parser) {
        reader.recordEnded();
        if (row.getRecordNumber() > table.firstRow()
            && row.size() > column
            && text.read(row.get(column))
            && text.hasDate) {
          guess.add(text, row.get(column));
        }
      }
    } catch (UncheckedIOException e) {
      if (!(e.getCause() instanceof LimitedReader.RecordTooLong)) {
        throw e;
      }
      // The dates before the row that is too long decide. The import reports the row.
    }
  }

  /** Reads all rows, until the receiver ends it. */
  void read(Source source, Charset charset, RowReceiver receiver) throws IOException {
    long line = 1;
    try (LimitedReader reader = new LimitedReader(FileEncoding.open(source, charset));
        CSVParser parser = TableFinder.format(plan.table().delimiter()).parse(reader)) {
      Iterator<CSVRecord> rows = parser.iterator();
      boolean more = true;
      while (more) {
        line = parser.getCurrentLineNumber() + 1;
        more = rows.hasNext();
        reader.recordEnded();
        if (more) {
          CSVRecord row = rows.next();
          long lines = parser.getCurrentLineNumber() - line + 1;
          if (lines > MAX_LINES_OF_ROW) {
            more = bad(receiver, line, row, texts.say("row.quote", lines));
          } else if (row.getRecordNumber() > plan.table().firstRow()) {
            more = read(line, row, receiver);
          }
        }
      }
    } catch (UncheckedIOException e) {
      if (e.getCause() instanceof LimitedReader.RecordTooLong) {
        receiver.bad(line, texts.say("row.too-long"), "");
      } else {
        throw texts.refusal("unreadable", String.valueOf(e.getMessage()));
      }
    }
  }

  private boolean read(long line, CSVRecord row, RowReceiver receiver) {
    int width = plan.table().width();
    if (row.size() != width && !fits(row, width)) {
      return bad(receiver, line, row, texts.say("row.cells", row.size(), width));
    }
    RowSensor sensor = plan.sensorColumn() < 0 ? fileSensor : sensor(row.get(plan.sensorColumn()));
    long ms = sensor == null ? NO_TIME : time(row, sensor);
    if (sensor == null || ms == NO_TIME) {
      return bad(receiver, line, row, problem);
    }
    sensor.previous.set(ms);
    if (ms < EARLIEST_MS || ms > latestMs) {
      return bad(
          receiver,
          line,
          row,
          ms < EARLIEST_MS
              ? texts.say("row.too-early")
              : texts.say("row.future", texts.of(Setting.DATE_ORDER), texts.of(Setting.ZONE)));
    }
    return values(line, row, sensor, Instant.ofEpochMilli(ms), receiver);
  }

  /** Whether only empty cells are missing or too many. */
  private static boolean fits(CSVRecord row, int width) {
    for (int i = width; i < row.size(); i++) {
      if (!row.get(i).isBlank()) {
        return false;
      }
    }
    return row.size() > width;
  }

  private boolean bad(RowReceiver receiver, long line, CSVRecord row, String reason) {
    String all = String.join(String.valueOf(plan.table().delimiter()), row);
    return receiver.bad(line, reason, all.substring(0, Math.min(all.length(), MAX_TEXT)));
  }

  private @Nullable RowSensor sensor(String cell) {
    RowSensor known = sensors.get(cell);
    if (known != null) {
      return known;
    }
    SensorId id = SensorNames.adapted(cell.strip()).orElse(null);
    if (id == null) {
      problem = texts.say("row.no-sensor");
      return null;
    }
    if (!ids.add(id)) {
      problem = texts.say("row.same-name", cell, id);
      return null;
    }
    if (sensors.size() == MAX_SENSORS) {
      int column = plan.sensorColumn() + 1;
      throw texts.refusal("sensors", column, texts.of(Setting.COLUMNS, column + "=ignore"));
    }
    RowSensor added = new RowSensor(id);
    sensors.put(cell, added);
    return added;
  }

  /** The instant of a row; {@link #NO_TIME}, with {@link #problem}, if it has none. */
  private long time(CSVRecord row, RowSensor sensor) {
    TimeColumns time = plan.time();
    String cell = row.get(time.first());
    if (time.kind() != TimeColumns.Kind.TEXT) {
      long ms = Epoch.millis(cell, time.kind() == TimeColumns.Kind.EPOCH_SECONDS ? 1 : 1000);
      return ms < 0 ? noTime(cell) : ms;
    }
    if (!text.read(cell) || !text.hasDate) {
      return noTime(cell);
    }
    long day = time.order().epochDay(text);
    if (day == DateOrder.NO_DATE) {
      return noTime(cell);
    }
    if (time.second() >= 0) {
      cell = row.get(time.second());
      if (!text.read(cell) || text.hasDate) {
        return noTime(cell);
      }
    }
    long local = day * DAY_MS + text.dayMs;
    long ms = text.hasOffset ? local - text.offsetMs : localTimes.instant(local, sensor.previous);
    if (ms == LocalTimes.SKIPPED) {
      problem = texts.say("row.skipped", cell, time.zone(), texts.of(Setting.ZONE));
    }
    return ms;
  }

  private long noTime(String cell) {
    problem = texts.say("row.no-time", cell, plan.time().order().words(texts));
    return NO_TIME;
  }

  private boolean values(
      long line, CSVRecord row, RowSensor sensor, Instant at, RowReceiver receiver) {
    boolean more = true;
    boolean empty = true;
    String bad = null;
    for (List<Column> group : groups) {
      Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
      for (Column column : group) {
        double value = value(row.get(column.index()), column);
        if (!Double.isNaN(value)) {
          values.put(column.unit().quantity(), value);
        } else if (!problem.isEmpty()) {
          bad = bad == null ? problem : bad + "; " + problem;
        }
      }
      if (!values.isEmpty()) {
        SensorId named = group.get(0).sensor();
        empty = false;
        more &=
            receiver.reading(
                line, new Reading(named == null ? sensor.id : named, at, values, null));
      }
    }
    if (bad != null) {
      more &= bad(receiver, line, row, bad);
    } else if (empty) {
      more &= receiver.empty(line);
    }
    return more;
  }

  /** The value of a cell; NaN, with {@link #problem} unless it is missing, if it has none. */
  private double value(String cell, Column column) {
    problem = "";
    double number = NumberText.parse(cell, plan.decimal());
    if (Double.isNaN(number)) {
      if (NumberText.isMissing(cell)) {
        return Double.NaN;
      }
      number = withUnit(cell.strip(), column);
    } else if (number <= -999 && NumberText.isMissing(cell)) {
      return Double.NaN;
    }
    double value = column.unit().toStored(number);
    if (!column.unit().quantity().plausible(value)) {
      Quantity quantity = column.unit().quantity();
      problem =
          Double.isNaN(value)
              ? texts.say("row.no-number", cell, column.header())
              : texts.say(
                  "row.outside",
                  cell,
                  column.header(),
                  Math.round(quantity.low()),
                  Math.round(quantity.high()),
                  quantity.unit());
      return Double.NaN;
    }
    return value;
  }

  private double withUnit(String cell, Column column) {
    int end = NumberText.end(cell);
    String suffix = cell.substring(end).strip();
    Unit unit = CellUnit.of(column.unit().quantity(), suffix);
    return suffix.isEmpty() || unit == column.unit()
        ? NumberText.parse(cell.substring(0, end), plan.decimal())
        : Double.NaN;
  }

  /** Remarks on all rows that were read. */
  List<String> notes() {
    long repeated = localTimes.repeated();
    return repeated == 0
        ? List.of()
        : List.of(texts.say("note.repeated", repeated, plan.time().zone()));
  }
}
