package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The CSV tables of the record, in the order in which they are imported; see records-csv.md. */
public enum Table {
  CONTAINERS,
  SENSORS,
  PLACEMENTS,
  CALIBRATIONS,
  CALIBRATION_POINTS,
  OPENINGS,
  SPECIES,
  LOTS,
  ENTRIES;

  List<String> header() {
    return switch (this) {
      case CONTAINERS -> ContainerTable.HEADER;
      case SENSORS -> SensorTable.HEADER;
      case PLACEMENTS -> PlacementTable.HEADER;
      case CALIBRATIONS -> CalibrationTable.HEADER;
      case CALIBRATION_POINTS -> PointTable.HEADER;
      case OPENINGS -> OpeningTable.HEADER;
      case SPECIES -> SpeciesTable.HEADER;
      case LOTS -> LotTable.HEADER;
      case ENTRIES -> EntryTable.HEADER;
    };
  }

  /** Its name in addresses and of its file, such as calibration-points. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The table of that name; null when there is none. */
  public static @Nullable Table named(String name) {
    return Arrays.stream(values())
        .filter(table -> table.key().equals(name))
        .findFirst()
        .orElse(null);
  }

  /** The names of all tables, for messages. */
  public static List<String> names() {
    return Arrays.stream(values()).map(Table::key).toList();
  }
}
