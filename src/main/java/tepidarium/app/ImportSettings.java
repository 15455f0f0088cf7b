package tepidarium.app;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tepidarium.importing.ImportChoices;

/** Options of the command line that replace a guess about an imported file. */
final class ImportSettings {
  @Option(
      names = "--column",
      paramLabel = "COLUMN=MEANING",
      description =
          "what a column holds, by its number or header: time, clock, sensor, ignore, or a quantity"
              + " with its unit and sensor, such as 3=temperature:F@jar-1")
  private Map<String, String> columns = new LinkedHashMap<>();

  @Option(
      names = "--sensor",
      paramLabel = "NAME",
      description = "the sensor of all rows (default: named in the file, or the file's name)")
  private @Nullable String sensor;

  @Option(
      names = "--zone",
      paramLabel = "ZONE",
      description =
          "time zone of times without an offset, such as Europe/Berlin or +01:00 (default: named in"
              + " the file, or the setting timeZone)")
  private @Nullable String zone;

  @Option(
      names = "--date-order",
      paramLabel = "ORDER",
      description = "order of day, month and year in dates: dmy, mdy or ymd")
  private @Nullable String dateOrder;

  @Option(
      names = "--decimal",
      paramLabel = "SIGN",
      description = "decimal separator of numbers: comma or point")
  private @Nullable String decimal;

  @Option(
      names = "--delimiter",
      paramLabel = "SIGN",
      description = "what is between two cells: comma, semicolon, tab or another character")
  private @Nullable String delimiter;

  @Option(
      names = "--header-line",
      paramLabel = "LINE",
      description = "number of the line that names the columns")
  private @Nullable Integer headerLine;

  @Option(
      names = "--encoding",
      paramLabel = "NAME",
      description = "character encoding, such as UTF-8, UTF-16LE or windows-1252")
  private @Nullable String encoding;

  ImportChoices choices() {
    return new ImportChoices(
        sensor, zone, dateOrder, decimal, delimiter, headerLine, encoding, columns);
  }
}
