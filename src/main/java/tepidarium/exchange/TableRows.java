package tepidarium.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.IntSupplier;
import java.util.function.Predicate;
import tepidarium.germination.Contradiction;
import tepidarium.germination.RefusedRow;
import tepidarium.reading.InvalidInput;

/**
 * One imported table, read but not stored. Its rows are parsed from the text when they are needed:
 * all their cells at once would need many times the memory of the text.
 *
 * @param file name of the file for messages; empty for a single table
 * @param csv the text of the table
 * @param lines number of the first line of each row, from 1
 */
record TableRows(Table table, String file, String csv, List<Long> lines) {
  /**
   * Reads the text of a table.
   *
   * @throws InvalidInput naming each line that is no row of the table
   */
  static TableRows read(Table table, String file, String csv) {
    Problems problems = new Problems(file);
    List<Long> lines = new ArrayList<>();
    CsvText.read(csv, table.header(), problems, row -> lines.add(row.line()));
    problems.throwIfAny();
    return new TableRows(table, file, csv, lines);
  }

  /**
   * Parses all rows.
   *
   * @throws InvalidInput naming each line with an invalid cell
   */
  <T> List<T> parsed(Function<Row, T> parse) {
    Problems problems = new Problems(file);
    List<T> all = new ArrayList<>();
    CsvText.read(
        csv,
        table.header(),
        problems,
        row -> {
          try {
            all.add(parse.apply(row));
          } catch (InvalidInput | ArithmeticException e) {
            problems.add(row.line(), e);
          }
        });
    problems.throwIfAny();
    return all;
  }

  /**
   * Stores parsed rows one by one.
   *
   * @param store returns whether the row was new
   * @return how many were new
   * @throws InvalidInput naming each line that was refused
   */
  <T> int stored(List<T> parsed, Predicate<T> store) {
    Problems problems = new Problems(file);
    int added = 0;
    for (int i = 0; i < parsed.size(); i++) {
      try {
        added += store.test(parsed.get(i)) ? 1 : 0;
      } catch (InvalidInput e) {
        problems.add(lines.get(i), e);
      }
    }
    problems.throwIfAny();
    return added;
  }

  /**
   * Runs the import of the whole table.
   *
   * @param step returns how many rows were new
   * @throws InvalidInput if a row contradicts others or the record
   */
  int imported(IntSupplier step) {
    Problems problems = new Problems(file);
    try {
      return step.getAsInt();
    } catch (RefusedRow e) {
      problems.add(lines.get(e.index()), e.reason());
      problems.throwIfAny();
      return 0;
    } catch (Contradiction e) {
      throw problems.refusal(e.getMessage(), e.broken());
    }
  }
}
