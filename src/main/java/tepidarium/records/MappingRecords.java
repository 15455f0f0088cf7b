package tepidarium.records;

import static tepidarium.records.Columns.instant;

import java.time.Instant;
import java.util.List;
import tepidarium.ingest.MappingRule;
import tepidarium.ingest.MappingStore;

/** Stores saved mapping rules in the records store, each as JSON. */
public final class MappingRecords implements MappingStore {
  private static final JsonColumn<MappingRule> COLUMN =
      new JsonColumn<>(MappingRule.class, "mapping rule");

  private final Database database;

  public MappingRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<Saved> all() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM mapping_rule ORDER BY id")
                .map(
                    (row, context) ->
                        new Saved(
                            row.getLong("id"),
                            instant(row, "saved_ms"),
                            COLUMN.read(row.getString("rule"))))
                .list());
  }

  @Override
  public Saved add(MappingRule rule, Instant at) {
    long id =
        database.transaction(
            handle ->
                handle
                    .createUpdate("INSERT INTO mapping_rule (saved_ms, rule) VALUES (:at, :rule)")
                    .bind("at", at.toEpochMilli())
                    .bind("rule", COLUMN.write(rule))
                    .executeAndReturnGeneratedKeys("id")
                    .mapTo(Long.class)
                    .one());
    return new Saved(id, at, rule);
  }

  @Override
  public boolean remove(long id) {
    return database.transaction(
        handle -> handle.execute("DELETE FROM mapping_rule WHERE id = ?", id) > 0);
  }
}
