package tepidarium.records;

import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.reflect.ConstructorMapper;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.ContainerStore;
import tepidarium.container.Opening;
import tepidarium.container.Placement;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Stores containers, placements, calibrations, openings and decisions about faults. */
public final class ContainerRecords implements ContainerStore {
  private final Database database;

  public ContainerRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<Container> containers() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM container")
                .map((row, context) -> container(row))
                .list());
  }

  private static Container container(ResultSet row) throws SQLException {
    Band band =
        new Band(
            row.getDouble("temperature_low_c"),
            row.getDouble("temperature_high_c"),
            row.getDouble("light_high_lux"),
            row.getDouble("humidity_low_percent"));
    @Nullable String heatSource = row.getString("heat_source");
    @Nullable String room = row.getString("room");
    ContainerSettings settings =
        new ContainerSettings(
            row.getString("name"),
            ofKey(ContainerKind.class, row.getString("kind")),
            heatSource,
            room,
            row.getDouble("base_c"),
            Columns.doubleOrNull(row, "ceiling_c"),
            band);
    return new Container(
        new ContainerId(row.getString("id")), settings, Columns.instant(row, "created_ms"));
  }

  @Override
  public void put(Container container) {
    String sql =
        """
        INSERT INTO container (id, name, kind, heat_source, room, base_c, ceiling_c,
          temperature_low_c, temperature_high_c, light_high_lux, humidity_low_percent, created_ms)
        VALUES (:id.value, :name, :settings.kind, :settings.heatSource, :settings.room,
          :settings.baseC, :settings.ceilingC, :band.temperatureLowC, :band.temperatureHighC, :band.lightHighLux,
          :band.humidityLowPercent, :createdAt)
        ON CONFLICT (id) DO UPDATE SET name = excluded.name, kind = excluded.kind,
          heat_source = excluded.heat_source, room = excluded.room, base_c = excluded.base_c,
          ceiling_c = excluded.ceiling_c, temperature_low_c = excluded.temperature_low_c,
          temperature_high_c = excluded.temperature_high_c,
          light_high_lux = excluded.light_high_lux,
          humidity_low_percent = excluded.humidity_low_percent
        """;
    database.transaction(handle -> handle.createUpdate(sql).bindMethods(container).execute());
  }

  @Override
  public void remove(ContainerId id) {
    database.transaction(
        handle -> {
          handle.execute("DELETE FROM placement WHERE container_id = ?", id.value());
          return handle.execute("DELETE FROM container WHERE id = ?", id.value());
        });
  }

  @Override
  public List<Placement> placements() {
    return database.transaction(
        handle ->
            handle
                .createQuery(
                    "SELECT sensor, container_id AS container, from_ms AS \"from\","
                        + " until_ms AS until FROM placement ORDER BY sensor, from_ms")
                .map(ConstructorMapper.of(Placement.class))
                .list());
  }

  @Override
  public void replacePlacements(Map<SensorId, List<Placement>> placements) {
    database.transaction(
        handle -> {
          placements.forEach((sensor, list) -> replace(handle, sensor, list));
          return placements.size();
        });
  }

  private static void replace(Handle handle, SensorId sensor, List<Placement> placements) {
    handle.execute("DELETE FROM placement WHERE sensor = ?", sensor.name());
    for (Placement placement : placements) {
      handle.execute(
          "INSERT INTO placement (sensor, container_id, from_ms, until_ms) VALUES (?, ?, ?, ?)",
          sensor.name(),
          placement.container().value(),
          placement.from().toEpochMilli(),
          Columns.ms(placement.until()));
    }
  }

  @Override
  public Map<SensorId, Calibration> calibrations() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM calibration")
                .map(
                    (row, context) ->
                        Map.entry(
                            new SensorId(row.getString("sensor")),
                            new Calibration(
                                row.getDouble("temperature_offset_c"),
                                row.getDouble("humidity_offset_percent"),
                                row.getDouble("temperature_error_c"))))
                .collect(Collectors.toUnmodifiableMap(Map.Entry::getKey, Map.Entry::getValue)));
  }

  @Override
  public void putCalibration(SensorId sensor, Calibration calibration) {
    String sql =
        """
        INSERT INTO calibration (sensor, temperature_offset_c, humidity_offset_percent,
          temperature_error_c) VALUES (?, ?, ?, ?)
        ON CONFLICT (sensor) DO UPDATE SET temperature_offset_c = excluded.temperature_offset_c,
          humidity_offset_percent = excluded.humidity_offset_percent,
          temperature_error_c = excluded.temperature_error_c
        """;
    database.transaction(
        handle ->
            handle.execute(
                sql,
                sensor.name(),
                calibration.temperatureOffsetC(),
                calibration.humidityOffsetPercent(),
                calibration.temperatureErrorC()));
  }

  @Override
  public List<CalibrationPoint.Stored> calibrationPoints() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM calibration_point WHERE removed_ms IS NULL ORDER BY id")
                .map((row, context) -> calibrationPoint(row))
                .list());
  }

  private static CalibrationPoint.Stored calibrationPoint(ResultSet row) throws SQLException {
    return new CalibrationPoint.Stored(
        row.getLong("id"),
        new CalibrationPoint(
            new SensorId(row.getString("sensor")),
            Quantity.ofKey(row.getString("quantity")).orElseThrow(),
            Columns.instant(row, "at_ms"),
            row.getDouble("reading"),
            row.getDouble("true_value"),
            row.getDouble("uncertainty"),
            CalibrationMethod.ofKey(row.getString("method")).orElseThrow(),
            row.getString("note")));
  }

  @Override
  public void addCalibrationPoint(CalibrationPoint point, Instant recordedAt) {
    String sql =
        """
        INSERT INTO calibration_point (sensor, quantity, at_ms, reading, true_value, uncertainty,
          method, note, recorded_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)
        """;
    database.transaction(
        handle ->
            handle.execute(
                sql,
                point.sensor().name(),
                point.quantity().key(),
                point.at(),
                point.reading(),
                point.trueValue(),
                point.uncertainty(),
                point.method().key(),
                point.note(),
                recordedAt));
  }

  @Override
  public void removeCalibrationPoint(long id, Instant removedAt) {
    database.transaction(
        handle ->
            handle.execute(
                "UPDATE calibration_point SET removed_ms = ? WHERE id = ? AND removed_ms IS NULL",
                removedAt,
                id));
  }

  @Override
  public List<FaultDecision> faultDecisions() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM fault_decision ORDER BY id")
                .map((row, context) -> faultDecision(row))
                .list());
  }

  private static FaultDecision faultDecision(ResultSet row) throws SQLException {
    return new FaultDecision(
        new SensorId(row.getString("sensor")),
        FaultRecords.quantity(row),
        FaultKind.ofKey(row.getString("kind")).orElseThrow(),
        Columns.instant(row, "from_ms"),
        Columns.instant(row, "to_ms"),
        row.getBoolean("excluded"),
        Columns.instant(row, "decided_ms"),
        row.getString("decided_by"));
  }

  @Override
  public void addFaultDecision(FaultDecision decision) {
    Quantity quantity = decision.quantity();
    String sql =
        """
        INSERT INTO fault_decision (sensor, quantity, kind, from_ms, to_ms, excluded, decided_ms,
          decided_by) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
        """;
    database.transaction(
        handle ->
            handle.execute(
                sql,
                decision.sensor().name(),
                quantity == null ? null : quantity.key(),
                decision.kind().key(),
                decision.from(),
                decision.to(),
                decision.excluded(),
                decision.decidedAt(),
                decision.by()));
  }

  @Override
  public List<Opening> openings() {
    return openings("opening");
  }

  @Override
  public void addOpening(Opening opening) {
    add("opening", opening);
  }

  @Override
  public List<Opening> declinedOpenings() {
    return openings("declined_opening");
  }

  @Override
  public void addDeclinedOpening(Opening declined) {
    add("declined_opening", declined);
  }

  private List<Opening> openings(String table) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM " + table)
                .map(
                    (row, context) ->
                        new Opening(
                            new ContainerId(row.getString("container_id")),
                            Span.ofMillis(row.getLong("from_ms"), row.getLong("until_ms"))))
                .list());
  }

  private void add(String table, Opening opening) {
    database.transaction(
        handle ->
            handle.execute(
                "INSERT INTO "
                    + table
                    + " (container_id, from_ms, until_ms) VALUES (?, ?, ?) ON CONFLICT"
                    + " (container_id, from_ms) DO UPDATE SET until_ms = excluded.until_ms",
                opening.container().value(),
                opening.span().fromMs(),
                opening.span().toMs()));
  }
}
