package tepidarium.exchange;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

/** The table of placements; one row for each time that a sensor was in a container or the room. */
final class PlacementTable {
  static final List<String> HEADER = List.of("sensor", "container", "from", "until");

  private PlacementTable() {}

  static List<@Nullable String> row(Placement placement) {
    return Arrays.asList(
        placement.sensor().name(),
        placement.container().value(),
        placement.from().toString(),
        Row.cell(placement.until()));
  }

  static Placement placement(Row row) {
    Instant from = row.instant("from");
    Instant until = row.optionalInstant("until");
    if (until != null && !until.isAfter(from)) {
      throw new InvalidInput("until", "must be later than from", InputRule.AFTER.with());
    }
    return new Placement(
        new SensorId(row.required("sensor")),
        new ContainerId(row.required("container")),
        from,
        until);
  }
}
