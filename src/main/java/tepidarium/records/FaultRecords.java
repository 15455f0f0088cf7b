package tepidarium.records;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.fault.Fault;
import tepidarium.fault.FaultKind;
import tepidarium.fault.Faults;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Stores faults that were noticed when messages arrived, in the records store. */
public final class FaultRecords implements ArrivalFaultStore {
  private final Database database;

  public FaultRecords(Database database) {
    this.database = database;
  }

  @Override
  public void add(List<ArrivalFault> faults) {
    if (faults.isEmpty()) {
      return;
    }
    List<Fault> stretches = Faults.merged(faults.stream().map(ArrivalFault::asStretch).toList());
    database.transaction(
        handle -> {
          stretches.forEach(stretch -> join(handle, stretch));
          return stretches.size();
        });
  }

  /** Extends the stretch of the same kind that the new one continues, or inserts the new one. */
  private static void join(Handle handle, Fault stretch) {
    Quantity quantity = stretch.quantity();
    String key = quantity == null ? null : quantity.key();
    // Not min and max of two values: PostgreSQL calls them least and greatest.
    int extended =
        handle
            .createUpdate(
                """
                UPDATE arrival_fault SET readings = readings + :readings,
                  from_ms = CASE WHEN from_ms < :from THEN from_ms ELSE :from END,
                  to_ms = CASE WHEN to_ms > :to THEN to_ms ELSE :to END,
                  low = CASE WHEN low < :low THEN low ELSE :low END,
                  high = CASE WHEN high > :high THEN high ELSE :high END
                WHERE id = (SELECT max(id) FROM arrival_fault WHERE sensor = :name AND kind = :key
                  AND quantity IS NOT DISTINCT FROM :quantityKey
                  AND to_ms >= :joinFrom AND from_ms <= :joinTo)
                """)
            .bindMethods(stretch)
            .bind("name", stretch.sensor().name())
            .bind("key", stretch.kind().key())
            .bind("quantityKey", key)
            .bind("joinFrom", stretch.from().minus(Faults.JOIN))
            .bind("joinTo", stretch.to().plus(Faults.JOIN))
            .execute();
    if (extended == 0) {
      handle.execute(
          """
          INSERT INTO arrival_fault (sensor, quantity, kind, from_ms, to_ms, readings, low, high)
          VALUES (?, ?, ?, ?, ?, ?, ?, ?)
          """,
          stretch.sensor().name(),
          key,
          stretch.kind().key(),
          stretch.from(),
          stretch.to(),
          stretch.readings(),
          stretch.low(),
          stretch.high());
    }
  }

  @Override
  public List<Fault> of(SensorId sensor, Span span) {
    return new ArrayList<>(
        database.transaction(
            handle ->
                handle
                    .createQuery(
                        "SELECT * FROM arrival_fault WHERE sensor = ? AND to_ms >= ?"
                            + " AND from_ms < ? ORDER BY from_ms")
                    .bind(0, sensor.name())
                    .bind(1, span.from())
                    .bind(2, span.to())
                    .map((row, context) -> fault(row))
                    .list()));
  }

  private static Fault fault(ResultSet row) throws SQLException {
    return new Fault(
        new SensorId(row.getString("sensor")),
        quantity(row),
        FaultKind.ofKey(row.getString("kind")).orElseThrow(),
        Columns.instant(row, "from_ms"),
        Columns.instant(row, "to_ms"),
        row.getInt("readings"),
        row.getDouble("low"),
        row.getDouble("high"),
        null);
  }

  /** The quantity of a row; null for all quantities of the sensor. */
  static @Nullable Quantity quantity(ResultSet row) throws SQLException {
    String key = row.getString("quantity");
    return key == null ? null : Quantity.ofKey(key).orElseThrow();
  }
}
