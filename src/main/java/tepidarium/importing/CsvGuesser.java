package tepidarium.importing;

import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Unit;
import tepidarium.reading.SensorId;

/** Guesses how a table is to be read. */
final class CsvGuesser {
  private CsvGuesser() {}

  /**
   * Guesses from the first lines of a file, and adds the reasons to the guesses.
   *
   * @throws tepidarium.reading.InvalidInput if the file cannot be read as a table of readings
   */
  static CsvPlan guess(String head, Source source, FileText text, List<Guess> guesses)
      throws IOException {
    ImportOptions options = text.options();
    LoggerTable table = TableFinder.find(head, options, guesses);
    List<ColumnWords> words = table.headers().stream().map(ColumnWords::of).toList();
    Map<Integer, ColumnSetting> settings =
        ColumnSetting.of(options.columns(), table.headers(), options.texts());
    DateOrderGuess.Result hint = dateHint(table, words);
    TimeColumns time =
        new TimeGuess(table, words, options, guesses)
            .guess(
                settings,
                hint,
                (guess, column) -> CsvRows.addDates(source, text.charset(), table, column, guess));
    ColumnsGuess columnsGuess = new ColumnsGuess(table, words, settings, options.texts(), guesses);
    int sensorColumn = columnsGuess.sensorColumn();
    Set<Integer> taken = new HashSet<>(List.of(time.first(), time.second(), sensorColumn));
    List<Integer> candidates = columnsGuess.candidates(taken);
    char decimal = DecimalGuess.guess(table, candidates, options, guesses);
    List<Column> columns = columnsGuess.columns(candidates, decimal);
    boolean usesDefault = ColumnsGuess.usesDefault(sensorColumn, columns.toArray(Column[]::new));
    SensorId sensor = ColumnsGuess.defaultSensor(table, options, usesDefault, guesses);
    return new CsvPlan(table, time, columns, sensorColumn, sensor, decimal);
  }

  /** Countries with a decimal comma write the day first; °F is used where the month is first. */
  private static DateOrderGuess.@Nullable Result dateHint(
      LoggerTable table, List<ColumnWords> words) {
    if (words.stream().anyMatch(column -> column.unit() == Unit.FAHRENHEIT)) {
      return new DateOrderGuess.Result(DateOrder.MDY, "fahrenheit-dates", "");
    }
    boolean comma =
        table.rows().stream()
            .flatMap(List::stream)
            .anyMatch(cell -> cell.strip().matches("-?\\d+,\\d{1,2}"));
    return comma ? new DateOrderGuess.Result(DateOrder.DMY, "comma-dates", "") : null;
  }
}
