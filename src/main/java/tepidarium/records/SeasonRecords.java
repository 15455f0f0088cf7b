package tepidarium.records;

import static tepidarium.records.Columns.instant;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Span;
import tepidarium.season.SeasonStore;
import tepidarium.season.StoredSeason;

/** Stores season reports in the records store. */
public final class SeasonRecords implements SeasonStore {
  private final Database database;

  public SeasonRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<StoredSeason> seasons() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM season ORDER BY to_ms DESC, id DESC")
                .map((row, context) -> season(row))
                .list());
  }

  @Override
  public Optional<StoredSeason> season(long id) {
    return database.transaction(handle -> season(handle, id));
  }

  private static Optional<StoredSeason> season(Handle handle, long id) {
    return handle
        .createQuery("SELECT * FROM season WHERE id = :id")
        .bind("id", id)
        .map((row, context) -> season(row))
        .findOne();
  }

  private static StoredSeason season(ResultSet row) throws SQLException {
    @Nullable String remark = row.getString("remark");
    return new StoredSeason(
        row.getLong("id"),
        row.getString("name"),
        new Span(instant(row, "from_ms"), instant(row, "to_ms")),
        instant(row, "kept_ms"),
        remark,
        row.getString("report"));
  }

  @Override
  public Optional<StoredSeason> add(NewSeason season) {
    String key = season.name().toLowerCase(Locale.ROOT);
    return database.transaction(
        handle -> {
          int added =
              handle
                  .createUpdate(
                      "INSERT INTO season (name, name_key, from_ms, to_ms, kept_ms, remark, report)"
                          + " VALUES (:name, :key, :span.fromMs, :span.toMs, :at, :remark, :report)"
                          + " ON CONFLICT (name_key) DO NOTHING")
                  .bindMethods(season)
                  .bind("key", key)
                  .execute();
          return added == 0
              ? Optional.empty()
              : handle
                  .createQuery("SELECT * FROM season WHERE name_key = :key")
                  .bind("key", key)
                  .map((row, context) -> season(row))
                  .findOne();
        });
  }

  @Override
  public boolean remove(long id) {
    return database.transaction(
        handle -> handle.execute("DELETE FROM season WHERE id = ?", id) > 0);
  }
}
