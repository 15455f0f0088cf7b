package tepidarium.exporting;

import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.series.ScaledValue;

/** File formats of an export. The import reads both. */
public enum ExportFormat {
  /** A table with a header that names quantities and units (RFC 4180). */
  CSV("csv", "csv", "text/csv; charset=utf-8; header=present") {
    @Override
    void appendHeader(StringBuilder text, boolean calibrated) {
      text.append("time,sensor");
      for (Quantity quantity : QUANTITIES) {
        text.append(',').append(quantity.key()).append(" (").append(quantity.unit()).append(')');
      }
      text.append(LINE_END);
    }

    @Override
    void appendRow(StringBuilder text, SensorId sensor, long atMs, double[] values) {
      text.append(Instant.ofEpochMilli(atMs)).append(',').append(sensor.name());
      for (double value : values) {
        text.append(',');
        if (!Double.isNaN(value)) {
          ScaledValue.append(text, ScaledValue.steps(value));
        }
      }
      text.append(LINE_END);
    }
  },
  /**
   * Lines as InfluxDB stores them for this service: {@code reading,sensor=jar-1 temperature=30.2},
   * then the time in nanoseconds. Source: InfluxDB documentation, "Line protocol reference".
   */
  LINE_PROTOCOL("line-protocol", "lp", "text/plain; charset=utf-8") {
    @Override
    void appendHeader(StringBuilder text, boolean calibrated) {
      text.append("# ").append(calibrated ? "calibrated" : "raw").append(" readings; units: ");
      text.append(
          Arrays.stream(QUANTITIES)
              .map(quantity -> quantity.key() + ' ' + quantity.unit())
              .collect(Collectors.joining(", ")));
      text.append('\n');
    }

    @Override
    void appendRow(StringBuilder text, SensorId sensor, long atMs, double[] values) {
      text.append("reading,sensor=").append(sensor.name());
      char before = ' ';
      for (int i = 0; i < values.length; i++) {
        if (!Double.isNaN(values[i])) {
          text.append(before).append(QUANTITIES[i].key()).append('=');
          ScaledValue.append(text, ScaledValue.steps(values[i]));
          before = ',';
        }
      }
      text.append(' ').append(atMs).append("000000\n");
    }
  };

  private static final Quantity[] QUANTITIES = Quantity.values();
  private static final String LINE_END = "\r\n";

  private final String key;
  private final String extension;
  private final String mediaType;

  ExportFormat(String key, String extension, String mediaType) {
    this.key = key;
    this.extension = extension;
    this.mediaType = mediaType;
  }

  /** The name in options and in the API, such as {@code line-protocol}. */
  public String key() {
    return key;
  }

  /** The end of file names, without the point. */
  public String extension() {
    return extension;
  }

  public String mediaType() {
    return mediaType;
  }

  /**
   * Finds a format by its name.
   *
   * @throws InvalidInput if there is none; the message names all
   */
  public static ExportFormat of(String key) {
    Optional<ExportFormat> found =
        Arrays.stream(values()).filter(format -> format.key.equals(key)).findFirst();
    return found.orElseThrow(
        () -> new InvalidInput("format", "must be csv or line-protocol, not \"" + key + '"'));
  }

  /** Appends the lines before the first reading. */
  abstract void appendHeader(StringBuilder text, boolean calibrated);

  /**
   * Appends one reading.
   *
   * @param values by quantity, in the order of the enum; NaN where the reading has none
   */
  abstract void appendRow(StringBuilder text, SensorId sensor, long atMs, double[] values);
}
