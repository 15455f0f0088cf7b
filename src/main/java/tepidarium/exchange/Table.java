package tepidarium.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Contradiction;
import tepidarium.germination.JournalImport;
import tepidarium.germination.RefusedRow;
import tepidarium.germination.SeedJournal;
import tepidarium.reading.InvalidInput;

/** The CSV tables of the germination record, for export and import; see records-csv.md. */
public enum Table {
  SPECIES,
  LOTS,
  ENTRIES;

  /**
   * The result of an import.
   *
   * @param rows number of rows read
   * @param added number of new records
   */
  public record ImportResult(int rows, int added) {}

  private List<String> header() {
    return switch (this) {
      case SPECIES -> SpeciesTable.HEADER;
      case LOTS -> LotTable.HEADER;
      case ENTRIES -> EntryTable.HEADER;
    };
  }

  /**
   * The table of that name; null when there is none.
   *
   * @param name species, lots or entries
   */
  public static @Nullable Table named(String name) {
    return Arrays.stream(values())
        .filter(table -> table.key().equals(name))
        .findFirst()
        .orElse(null);
  }

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Exports all rows as CSV. */
  public String write(SeedJournal journal) {
    List<List<@Nullable String>> rows =
        switch (this) {
          case SPECIES -> journal.species().all().stream().map(SpeciesTable::row).toList();
          case LOTS -> journal.lots().all().stream().map(LotTable::row).toList();
          case ENTRIES -> journal.entries().stream().map(EntryTable::row).toList();
        };
    return CsvText.write(header(), rows);
  }

  /**
   * Imports all rows of a table, or none.
   *
   * @throws InvalidInput naming each line that cannot be imported
   */
  public ImportResult read(String csv, SeedJournal journal, Instant now) {
    List<Row> rows = CsvText.read(csv, header());
    int added =
        switch (this) {
          case SPECIES -> new JournalImport(journal).species(parsed(rows, SpeciesTable::species));
          case LOTS -> {
            var lots = parsed(rows, LotTable::lot);
            yield imported(rows, () -> new JournalImport(journal).lots(lots, now));
          }
          case ENTRIES -> {
            var entries = parsed(rows, EntryTable::entry);
            yield imported(rows, () -> new JournalImport(journal).entries(entries, now));
          }
        };
    return new ImportResult(rows.size(), added);
  }

  private interface Import {
    int run();
  }

  private static int imported(List<Row> rows, Import step) {
    Problems problems = new Problems();
    try {
      return step.run();
    } catch (RefusedRow e) {
      problems.add(rows.get(e.index()).line(), e.getMessage());
      problems.throwIfAny();
      return 0;
    } catch (Contradiction e) {
      throw new InvalidInput("nothing was imported: " + e.getMessage(), e);
    }
  }

  private static <T> List<T> parsed(List<Row> rows, Function<Row, T> parse) {
    Problems problems = new Problems();
    List<T> all = new ArrayList<>();
    for (Row row : rows) {
      try {
        all.add(parse.apply(row));
      } catch (InvalidInput | ArithmeticException e) {
        problems.add(row.line(), e.getMessage());
      }
    }
    problems.throwIfAny();
    return all;
  }
}
