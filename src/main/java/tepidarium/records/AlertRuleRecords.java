package tepidarium.records;

import static tepidarium.records.Columns.doubleOrNull;
import static tepidarium.records.Columns.instantOrNull;
import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertRuleStore;
import tepidarium.alert.OutOfService;
import tepidarium.alert.Priority;
import tepidarium.alert.RuleOverride;

/** Stores alert rule overrides and kinds taken out of service in the records store. */
public final class AlertRuleRecords implements AlertRuleStore {
  private final Database database;

  public AlertRuleRecords(Database database) {
    this.database = database;
  }

  @Override
  public Map<AlertKey, Decision> decisions() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM alert_rule")
                .map((row, context) -> Map.entry(AlertRecords.alertKey(row), decision(row)))
                .list()
                .stream()
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue)));
  }

  private static Decision decision(ResultSet row) throws SQLException {
    @Nullable String priority = row.getString("priority");
    RuleOverride override =
        new RuleOverride(
            doubleOrNull(row, "limit_value"),
            doubleOrNull(row, "deadband"),
            durationOrNull(row, "on_delay_ms"),
            durationOrNull(row, "off_delay_ms"),
            priority == null ? null : ofKey(Priority.class, priority));
    @Nullable Instant outAt = instantOrNull(row, "out_ms");
    @Nullable String reason = row.getString("out_reason");
    return new Decision(
        override, outAt == null ? null : new OutOfService(outAt, row.getString("out_by"), reason));
  }

  private static @Nullable Duration durationOrNull(ResultSet row, String column)
      throws SQLException {
    long ms = row.getLong(column);
    return row.wasNull() ? null : Duration.ofMillis(ms);
  }

  @Override
  public void put(AlertKey key, Decision decision) {
    String sql =
        """
        INSERT INTO alert_rule (container_id, kind, limit_value, deadband, on_delay_ms,
          off_delay_ms, priority, out_ms, out_by, out_reason)
        SELECT :container.value, :kind.key, :override.limit, :override.deadband, :override.onDelay,
          :override.offDelay, :override.priority, :outOfService?.at, :outOfService?.by,
          :outOfService?.reason
        WHERE EXISTS (SELECT 1 FROM container WHERE id = :container.value)
        ON CONFLICT (container_id, kind) DO UPDATE SET limit_value = excluded.limit_value,
          deadband = excluded.deadband, on_delay_ms = excluded.on_delay_ms,
          off_delay_ms = excluded.off_delay_ms, priority = excluded.priority,
          out_ms = excluded.out_ms, out_by = excluded.out_by, out_reason = excluded.out_reason
        """;
    database.transaction(
        handle -> handle.createUpdate(sql).bindMethods(key).bindMethods(decision).execute());
  }
}
