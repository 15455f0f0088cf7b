package tepidarium.importing;

import java.nio.charset.Charset;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SensorId;

/**
 * Settings of one import. A setting that is null is guessed from the file.
 *
 * @param encoding character encoding of the file
 * @param delimiter character between two cells
 * @param decimalComma whether numbers have a decimal comma; false for a decimal point
 * @param dateOrder order of day, month and year in dates
 * @param headerLine number of the line that names the columns, from 1
 * @param zone time zone of local times
 * @param sensor sensor of all rows of the file
 * @param columns meaning of columns, by number from 1 or by header; of two for one column, the
 *     later one holds
 * @param fileName name of the file; names the sensor if nothing else does
 * @param defaultZone time zone of the service; used if neither the file nor {@code zone} has one
 * @param latest readings after this instant are refused
 * @param texts the sentences of messages
 */
public record ImportOptions(
    @Nullable Charset encoding,
    @Nullable Character delimiter,
    @Nullable Boolean decimalComma,
    @Nullable DateOrder dateOrder,
    @Nullable Integer headerLine,
    @Nullable ZoneId zone,
    @Nullable SensorId sensor,
    Map<String, String> columns,
    String fileName,
    ZoneId defaultZone,
    Instant latest,
    ImportTexts texts) {
  public ImportOptions {
    columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
  }

  /** Options that leave everything to be guessed. */
  public static ImportOptions guessAll(String fileName, ZoneId defaultZone, Instant latest) {
    return new ImportOptions(
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        Map.of(),
        fileName,
        defaultZone,
        latest,
        ImportTexts.OPTIONS);
  }
}
