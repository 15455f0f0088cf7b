package tepidarium.records;

import static tepidarium.records.Rows.instant;
import static tepidarium.records.Rows.instantOrNull;
import static tepidarium.records.Rows.ms;
import static tepidarium.records.Rows.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertStore;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/** Alerts in the records store. */
public final class AlertRecords implements AlertStore {
  private final Database database;

  public AlertRecords(Database database) {
    this.database = database;
  }

  @Override
  public void put(Alert alert) {
    String sql =
        """
        INSERT INTO alert (id, container_id, kind, limit_value, since_ms, raised_ms, returned_ms,
          acknowledged_ms, acknowledged_by, shelved_ms, latest_value, worst_value)
        SELECT ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?
        WHERE EXISTS (SELECT 1 FROM container WHERE id = ?)
        ON CONFLICT (id) DO UPDATE SET returned_ms = excluded.returned_ms,
          acknowledged_ms = excluded.acknowledged_ms, acknowledged_by = excluded.acknowledged_by,
          shelved_ms = excluded.shelved_ms, latest_value = excluded.latest_value,
          worst_value = excluded.worst_value
        """;
    database.transaction(
        handle ->
            handle.execute(
                sql,
                alert.id(),
                alert.container().value(),
                alert.kind().key(),
                alert.limit(),
                ms(alert.since()),
                ms(alert.raisedAt()),
                ms(alert.returnedAt()),
                ms(alert.acknowledgedAt()),
                alert.acknowledgedBy(),
                ms(alert.shelvedUntil()),
                alert.latest(),
                alert.worst(),
                alert.container().value()));
  }

  @Override
  public List<Alert> open() {
    return list(
        "SELECT * FROM alert WHERE returned_ms IS NULL OR acknowledged_ms IS NULL ORDER BY id",
        Integer.MAX_VALUE);
  }

  @Override
  public List<Alert> newest(int most) {
    return list("SELECT * FROM alert ORDER BY id DESC", most);
  }

  @Override
  public List<Alert> within(Span span) {
    return database.transaction(
        handle ->
            handle
                .createQuery(
                    "SELECT * FROM alert WHERE raised_ms < :to"
                        + " AND (returned_ms IS NULL OR returned_ms >= :from) ORDER BY raised_ms, id")
                .bind("from", span.fromMs())
                .bind("to", span.toMs())
                .map((row, context) -> alert(row))
                .list());
  }

  private List<Alert> list(String sql, int most) {
    return database.transaction(
        handle ->
            handle
                .createQuery(sql + " LIMIT :most")
                .bind("most", most)
                .map((row, context) -> alert(row))
                .list());
  }

  private static Alert alert(ResultSet row) throws SQLException {
    @Nullable String by = row.getString("acknowledged_by");
    return new Alert(
        row.getLong("id"),
        new ContainerId(row.getString("container_id")),
        ofKey(AlertKind.class, row.getString("kind")),
        row.getDouble("limit_value"),
        instant(row, "since_ms"),
        instant(row, "raised_ms"),
        instantOrNull(row, "returned_ms"),
        instantOrNull(row, "acknowledged_ms"),
        by,
        instantOrNull(row, "shelved_ms"),
        row.getDouble("latest_value"),
        row.getDouble("worst_value"));
  }

  @Override
  public long lastId() {
    return database.transaction(
        handle ->
            handle.createQuery("SELECT coalesce(max(id), 0) FROM alert").mapTo(Long.class).one());
  }
}
