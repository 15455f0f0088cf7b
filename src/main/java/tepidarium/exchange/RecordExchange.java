package tepidarium.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.germination.SeedJournal;
import tepidarium.sensor.SensorBook;

/**
 * Exports the tables of the record and imports them. An import takes all tables over, or changes
 * nothing. It writes to the stores within one transaction, checks everything there, and only then
 * publishes the new record to readers. Thread-safe.
 */
public final class RecordExchange {
  private static final Comparator<Opening> BY_TIME =
      Comparator.comparing((Opening opening) -> opening.container().value())
          .thenComparing(opening -> opening.span().from());

  private final Register register;
  private final SeedJournal journal;
  private final SensorBook sensors;
  private final RecordStores stores;

  /**
   * The result for one table.
   *
   * @param rows number of rows read
   * @param added number of new records
   */
  public record Taken(Table table, int rows, int added) {}

  public RecordExchange(
      Register register, SeedJournal journal, SensorBook sensors, RecordStores stores) {
    this.register = register;
    this.journal = journal;
    this.sensors = sensors;
    this.stores = stores;
  }

  /** Exports a table as CSV. */
  public String write(Table table) {
    return CsvText.write(table.header(), rows(table).toList());
  }

  /** Exports all tables. Entries are read before the containers that they name. */
  public Map<Table, String> writeAll() {
    Map<Table, String> all = new EnumMap<>(Table.class);
    Stream.of(Table.values())
        .sorted(Comparator.reverseOrder())
        .forEach(table -> all.put(table, write(table)));
    return all;
  }

  private Stream<List<@Nullable String>> rows(Table table) {
    return switch (table) {
      case CONTAINERS -> register.containers().stream().map(ContainerTable::row);
      case SENSORS ->
          sensors.allDetails().entrySet().stream()
              .sorted(Map.Entry.comparingByKey())
              .map(SensorTable::row);
      case PLACEMENTS -> register.placements().stream().map(PlacementTable::row);
      case CALIBRATIONS ->
          register.calibrations().entrySet().stream()
              .sorted(Map.Entry.comparingByKey())
              .map(CalibrationTable::row);
      case CALIBRATION_POINTS -> register.calibrationPoints().stream().map(PointTable::row);
      case OPENINGS ->
          Stream.concat(
              register.openings().stream()
                  .sorted(BY_TIME)
                  .map(opening -> OpeningTable.row(new OpeningTable.Line(opening, false))),
              register.declinedOpenings().stream()
                  .sorted(BY_TIME)
                  .map(opening -> OpeningTable.row(new OpeningTable.Line(opening, true))));
      case SPECIES -> journal.species().all().stream().map(SpeciesTable::row);
      case LOTS -> journal.lots().all().stream().map(LotTable::row);
      case ENTRIES -> journal.entries().stream().map(EntryTable::row);
    };
  }

  /**
   * Imports one table.
   *
   * @throws tepidarium.reading.InvalidInput naming each line that cannot be imported
   */
  public Taken read(Table table, String csv, Instant now) {
    return store(List.of(TableRows.read(table, "", csv)), now).get(0);
  }

  /**
   * Imports some tables together, whatever their order.
   *
   * @throws tepidarium.reading.InvalidInput naming each line of the first table that cannot be
   *     imported
   */
  public List<Taken> readAll(Map<Table, String> csv, Instant now) {
    List<TableRows> tables = new ArrayList<>();
    csv.forEach((table, text) -> tables.add(TableRows.read(table, table.key() + ".csv", text)));
    tables.sort(Comparator.comparing(TableRows::table));
    return store(tables, now);
  }

  private List<Taken> store(List<TableRows> tables, Instant now) {
    List<Taken> taken = new ArrayList<>();
    Runnable work = () -> new RecordImport(stores, now).take(tables, taken);
    sensors.reloadAfter(() -> journal.reloadAfter(() -> stores.transaction().accept(work)));
    return taken;
  }
}
