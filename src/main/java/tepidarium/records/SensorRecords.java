package tepidarium.records;

import java.util.Collection;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jdbi.v3.core.statement.PreparedBatch;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.SensorId;
import tepidarium.sensor.SensorDetails;
import tepidarium.sensor.SensorStore;

/** Stores the details and the newest status of each sensor in the records store. */
public final class SensorRecords implements SensorStore {
  private final Database database;

  public SensorRecords(Database database) {
    this.database = database;
  }

  @Override
  public Map<SensorId, SensorDetails> details() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM sensor_details")
                .map(
                    (row, context) ->
                        Map.entry(
                            new SensorId(row.getString("sensor")),
                            new SensorDetails(
                                row.getString("name"),
                                row.getString("note"),
                                Columns.doubleOrNull(row, "empty_volts"),
                                Columns.instantOrNull(row, "retired_ms"))))
                .collect(Collectors.toUnmodifiableMap(Map.Entry::getKey, Map.Entry::getValue)));
  }

  @Override
  public void put(SensorId sensor, SensorDetails details) {
    String sql =
        """
        INSERT INTO sensor_details (sensor, name, note, empty_volts, retired_ms)
        VALUES (?, ?, ?, ?, ?)
        ON CONFLICT (sensor) DO UPDATE SET name = excluded.name, note = excluded.note,
          empty_volts = excluded.empty_volts, retired_ms = excluded.retired_ms
        """;
    database.transaction(
        handle ->
            handle.execute(
                sql,
                sensor.name(),
                details.name(),
                details.note(),
                details.emptyVolts(),
                Columns.ms(details.retiredAt())));
  }

  @Override
  public Map<SensorId, DeviceStatus> statuses() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM sensor_status")
                .map(
                    (row, context) ->
                        new DeviceStatus(
                            new SensorId(row.getString("sensor")),
                            Columns.instant(row, "at_ms"),
                            Columns.intOrNull(row, "rssi_dbm"),
                            row.getString("firmware")))
                .collect(Collectors.toUnmodifiableMap(DeviceStatus::sensor, Function.identity())));
  }

  @Override
  public void putStatuses(Collection<DeviceStatus> statuses) {
    String sql =
        """
        INSERT INTO sensor_status (sensor, at_ms, rssi_dbm, firmware)
        VALUES (:sensor, :at, :rssi, :firmware)
        ON CONFLICT (sensor) DO UPDATE SET at_ms = excluded.at_ms, rssi_dbm = excluded.rssi_dbm,
          firmware = excluded.firmware
        """;
    database.transaction(
        handle -> {
          PreparedBatch batch = handle.prepareBatch(sql);
          for (DeviceStatus status : statuses) {
            batch
                .bind("sensor", status.sensor().name())
                .bind("at", status.at().toEpochMilli())
                .bind("rssi", status.rssiDbm())
                .bind("firmware", status.firmware())
                .add();
          }
          return batch.execute();
        });
  }
}
