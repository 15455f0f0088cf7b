package tepidarium.records;

import static tepidarium.records.Columns.doubleOrNull;
import static tepidarium.records.Columns.instant;
import static tepidarium.records.Columns.instantOrNull;
import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertFilter;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertReason;
import tepidarium.alert.AlertStore;
import tepidarium.alert.Condition;
import tepidarium.alert.Priority;
import tepidarium.alert.RaisedAlert;
import tepidarium.alert.Transition;
import tepidarium.alert.Trend;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/** Stores alerts, their transitions and the state of each condition in the records store. */
public final class AlertRecords implements AlertStore {
  private static final JsonColumn<AlertReason[]> REASONS =
      new JsonColumn<>(AlertReason[].class, "reasons of an alert");

  private final Database database;

  public AlertRecords(Database database) {
    this.database = database;
  }

  @Override
  public Transition record(
      @Nullable Alert after, @Nullable Condition condition, Transition transition) {
    return database.transaction(
        handle -> {
          if (after != null) {
            put(handle, after);
          }
          if (condition != null) {
            put(handle, transition.key(), condition);
          }
          return transition.numbered(add(handle, transition));
        });
  }

  @Override
  public void save(Collection<Alert> alerts, Map<AlertKey, Condition> conditions) {
    database.transaction(
        handle -> {
          alerts.forEach(alert -> put(handle, alert));
          conditions.forEach((key, condition) -> put(handle, key, condition));
          return alerts.size();
        });
  }

  private static void put(Handle handle, Alert alert) {
    String sql =
        """
        INSERT INTO alert (id, container_id, kind, limit_value, since_ms, raised_ms, returned_ms,
          acknowledged_ms, acknowledged_by, shelved_ms, latest_value, worst_value, priority,
          shelved_by, detail, reasons, trend_value, trend_per_hour, trend_steady, forecast_ms, found_late)
        SELECT :id, :container.value, :kind.key, :limit, :since, :raisedAt, :returnedAt,
          :acknowledgedAt, :acknowledgedBy, :shelvedUntil, :latest, :worst, :extra.priority.key,
          :extra.shelvedBy, :extra.detail, :reasons, :trendValue, :trendPerHour, :trendSteady,
          :extra.forecastAt, :extra.foundLate
        WHERE EXISTS (SELECT 1 FROM container WHERE id = :container.value)
        ON CONFLICT (id) DO UPDATE SET limit_value = excluded.limit_value,
          priority = excluded.priority, since_ms = excluded.since_ms,
          raised_ms = excluded.raised_ms, returned_ms = excluded.returned_ms,
          acknowledged_ms = excluded.acknowledged_ms, acknowledged_by = excluded.acknowledged_by,
          shelved_ms = excluded.shelved_ms, latest_value = excluded.latest_value,
          worst_value = excluded.worst_value, shelved_by = excluded.shelved_by,
          detail = excluded.detail, reasons = excluded.reasons,
          trend_value = excluded.trend_value,
          trend_per_hour = excluded.trend_per_hour, trend_steady = excluded.trend_steady,
          forecast_ms = excluded.forecast_ms
        """;
    @Nullable Trend trend = alert.trend();
    handle
        .createUpdate(sql)
        .bindMethods(alert)
        .bind("reasons", written(alert.reasons()))
        .bind("trendValue", trend == null ? null : trend.value())
        .bind("trendPerHour", trend == null ? null : trend.perHour())
        .bind("trendSteady", trend == null ? null : trend.steady())
        .execute();
    handle.execute("UPDATE alert_last_id SET id = ? WHERE id < ?", alert.id(), alert.id());
  }

  private static void put(Handle handle, AlertKey key, Condition condition) {
    String sql =
        """
        INSERT INTO alert_condition (container_id, kind, since_ms, active, clear_ms, last_ms,
          worst_value)
        SELECT :key.container.value, :key.kind.key, :since, :active, :clearSince, :lastAt, :worst
        WHERE EXISTS (SELECT 1 FROM container WHERE id = :key.container.value)
        ON CONFLICT (container_id, kind) DO UPDATE SET since_ms = excluded.since_ms,
          active = excluded.active, clear_ms = excluded.clear_ms, last_ms = excluded.last_ms,
          worst_value = excluded.worst_value
        """;
    handle
        .createUpdate(sql)
        .bindMethods("key", key)
        .bindMethods(condition)
        .bind("worst", Double.isNaN(condition.worst()) ? null : condition.worst())
        .execute();
  }

  /** Inserts the transition and returns its id; 0 if the container has been deleted. */
  private static long add(Handle handle, Transition transition) {
    String sql =
        """
        INSERT INTO alert_transition (alert_id, container_id, kind, what, at_ms, recorded_ms,
          done_by, note, reasons)
        SELECT :alertId, :key.container.value, :key.kind.key, :what.key, :at, :recordedAt, :by,
          :note, :reasons
        WHERE EXISTS (SELECT 1 FROM container WHERE id = :key.container.value)
        """;
    int added =
        handle
            .createUpdate(sql)
            .bindMethods(transition)
            .bind("reasons", written(transition.reasons()))
            .execute();
    return added == 0
        ? 0
        : handle.createQuery("SELECT max(id) FROM alert_transition").mapTo(Long.class).one();
  }

  @Override
  public List<Alert> open() {
    return alerts(
        "NOT found_late AND (returned_ms IS NULL OR acknowledged_ms IS NULL) ORDER BY id",
        Integer.MAX_VALUE);
  }

  @Override
  public List<Alert> newest(int most) {
    return alerts("NOT found_late ORDER BY id DESC", most);
  }

  @Override
  public List<Alert> history(AlertFilter filter) {
    ContainerId container = filter.container();
    Instant from = filter.from();
    Instant to = filter.to();
    return alerts(
        "raised_ms >= ? AND raised_ms < ?"
            + (container == null ? "" : " AND container_id = ?")
            + " ORDER BY raised_ms DESC, id DESC",
        filter.most(),
        from == null ? Long.MIN_VALUE : from.toEpochMilli(),
        to == null ? Long.MAX_VALUE : to.toEpochMilli(),
        container == null ? null : container.value());
  }

  @Override
  public Optional<Alert> alert(long id) {
    return alerts("id = ?", 1, id).stream().findFirst();
  }

  @Override
  public List<Alert> overlapping(AlertKey key, Span span) {
    return alerts(
        "container_id = ? AND kind = ? AND since_ms < ? AND coalesce(returned_ms, ?) >= ?"
            + " ORDER BY since_ms DESC, id DESC",
        Integer.MAX_VALUE,
        key.container().value(),
        key.kind().key(),
        span.toMs(),
        Long.MAX_VALUE,
        span.fromMs());
  }

  @Override
  public List<RaisedAlert> raised(Span span) {
    String sql =
        """
        SELECT * FROM (
          SELECT t.id, t.container_id, t.kind, t.at_ms,
            (SELECT min(e.at_ms) FROM alert_transition e WHERE e.alert_id = t.alert_id
              AND e.id > t.id AND e.what IN ('returned', 'outOfService')) AS returned_ms
          FROM alert_transition t WHERE t.what = 'raised' AND t.at_ms < :to
        ) AS raising WHERE returned_ms IS NULL OR returned_ms >= :from ORDER BY at_ms, id
        """;
    return database.transaction(
        handle ->
            handle
                .createQuery(sql)
                .bind("from", span.fromMs())
                .bind("to", span.toMs())
                .map((row, context) -> raised(row))
                .list());
  }

  private static RaisedAlert raised(ResultSet row) throws SQLException {
    AlertKey key = alertKey(row);
    return new RaisedAlert(
        key.container(), key.kind(), instant(row, "at_ms"), instantOrNull(row, "returned_ms"));
  }

  private List<Alert> alerts(String where, int most, @Nullable Object... values) {
    return database.transaction(
        handle -> {
          var query = handle.createQuery("SELECT * FROM alert WHERE " + where + " LIMIT " + most);
          int position = 0;
          for (Object value : values) {
            if (value != null) {
              query.bind(position++, value);
            }
          }
          return query.map((row, context) -> alert(row)).list();
        });
  }

  private static Alert alert(ResultSet row) throws SQLException {
    @Nullable String by = row.getString("acknowledged_by");
    AlertKey key = alertKey(row);
    return new Alert(
        row.getLong("id"),
        key.container(),
        key.kind(),
        row.getDouble("limit_value"),
        instant(row, "since_ms"),
        instant(row, "raised_ms"),
        instantOrNull(row, "returned_ms"),
        instantOrNull(row, "acknowledged_ms"),
        by,
        instantOrNull(row, "shelved_ms"),
        row.getDouble("latest_value"),
        row.getDouble("worst_value"),
        extra(row));
  }

  private static Alert.Extra extra(ResultSet row) throws SQLException {
    @Nullable String shelvedBy = row.getString("shelved_by");
    @Nullable String detail = row.getString("detail");
    return new Alert.Extra(
        ofKey(Priority.class, row.getString("priority")),
        shelvedBy,
        detail,
        reasons(row),
        trend(row),
        instantOrNull(row, "forecast_ms"),
        row.getBoolean("found_late"));
  }

  private static @Nullable String written(List<AlertReason> reasons) {
    return reasons.isEmpty() ? null : REASONS.write(reasons.toArray(AlertReason[]::new));
  }

  private static List<AlertReason> reasons(ResultSet row) throws SQLException {
    @Nullable String stored = row.getString("reasons");
    return stored == null ? List.of() : List.of(REASONS.read(stored));
  }

  private static @Nullable Trend trend(ResultSet row) throws SQLException {
    double value = row.getDouble("trend_value");
    return row.wasNull()
        ? null
        : new Trend(value, row.getDouble("trend_per_hour"), row.getDouble("trend_steady"));
  }

  static AlertKey alertKey(ResultSet row) throws SQLException {
    return new AlertKey(new ContainerId(row.getString("container_id")), Columns.kind(row));
  }

  @Override
  public List<Transition> transitions(long alertId) {
    return transitions("alert_id = ? ORDER BY id", Integer.MAX_VALUE, alertId);
  }

  @Override
  public List<Transition> serviceChanges(ContainerId container, int most) {
    return transitions(
        "container_id = ? AND what IN ('outOfService', 'inService') ORDER BY id DESC",
        most,
        container.value());
  }

  @Override
  public List<Transition> transitionsAfter(long transitionId, int most) {
    return transitions("id > ? AND alert_id IS NOT NULL ORDER BY id", most, transitionId);
  }

  private List<Transition> transitions(String where, int most, Object value) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM alert_transition WHERE " + where + " LIMIT " + most)
                .bind(0, value)
                .map((row, context) -> transition(row))
                .list());
  }

  private static Transition transition(ResultSet row) throws SQLException {
    long alert = row.getLong("alert_id");
    @Nullable Long alertId = row.wasNull() ? null : alert;
    @Nullable String by = row.getString("done_by");
    @Nullable String note = row.getString("note");
    return new Transition(
        row.getLong("id"),
        alertId,
        alertKey(row),
        Transition.What.ofKey(row.getString("what")),
        instant(row, "at_ms"),
        instant(row, "recorded_ms"),
        by,
        note,
        reasons(row));
  }

  @Override
  public Map<AlertKey, Condition> conditions() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM alert_condition")
                .map((row, context) -> Map.entry(alertKey(row), condition(row)))
                .list()
                .stream()
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue)));
  }

  private static Condition condition(ResultSet row) throws SQLException {
    Double worst = doubleOrNull(row, "worst_value");
    @Nullable Instant since = instantOrNull(row, "since_ms");
    return new Condition(
        since,
        row.getBoolean("active"),
        instantOrNull(row, "clear_ms"),
        instantOrNull(row, "last_ms"),
        worst == null || since == null ? Double.NaN : worst);
  }

  @Override
  public long lastId() {
    return database.transaction(
        handle -> handle.createQuery("SELECT id FROM alert_last_id").mapTo(Long.class).one());
  }
}
