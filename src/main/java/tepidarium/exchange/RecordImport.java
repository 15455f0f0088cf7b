package tepidarium.exchange;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Register;
import tepidarium.germination.JournalImport;
import tepidarium.germination.SeedJournal;

/**
 * Writes the tables of one import into the stores, in the order of {@link Table}. It needs a
 * transaction around it. Seeds are checked against a register and a journal of its own, which see
 * the containers that were written just before.
 */
final class RecordImport {
  private final RecordStores stores;
  private final Instant now;
  private final ContainerImport containers;
  private @Nullable SeedJournal journal;

  RecordImport(RecordStores stores, Instant now) {
    this.stores = stores;
    this.now = now;
    this.containers = new ContainerImport(stores.containers(), stores.sensors(), now);
  }

  void take(List<TableRows> tables, List<RecordExchange.Taken> taken) {
    for (TableRows rows : tables) {
      taken.add(new RecordExchange.Taken(rows.table(), rows.lines().size(), added(rows)));
    }
    containers.checkPoints();
  }

  private int added(TableRows rows) {
    return switch (rows.table()) {
      case CONTAINERS -> rows.stored(rows.parsed(ContainerTable::container), containers::container);
      case SENSORS -> rows.stored(rows.parsed(SensorTable::sensor), containers::sensor);
      case PLACEMENTS -> rows.stored(rows.parsed(PlacementTable::placement), containers::placement);
      case CALIBRATIONS ->
          rows.stored(rows.parsed(CalibrationTable::calibration), containers::calibration);
      case CALIBRATION_POINTS -> rows.stored(rows.parsed(PointTable::point), containers::point);
      case OPENINGS -> rows.stored(rows.parsed(OpeningTable::line), containers::opening);
      case SPECIES -> seeds().species(rows.parsed(SpeciesTable::species));
      case LOTS -> {
        var lots = rows.parsed(LotTable::lot);
        yield rows.imported(() -> seeds().lots(lots, now));
      }
      case ENTRIES -> {
        var entries = rows.parsed(EntryTable::entry);
        yield rows.imported(() -> seeds().entries(entries, now));
      }
    };
  }

  private JournalImport seeds() {
    if (journal == null) {
      journal = new SeedJournal(stores.germination(), new Register(stores.containers()));
    }
    return new JournalImport(journal);
  }
}
