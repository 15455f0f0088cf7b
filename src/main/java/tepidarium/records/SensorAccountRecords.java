package tepidarium.records;

import static tepidarium.records.Columns.instant;
import static tepidarium.records.Columns.ofKey;

import java.util.List;
import java.util.function.Supplier;
import tepidarium.access.AnonymousSensors;
import tepidarium.access.SensorAccount;
import tepidarium.access.SensorAccountStore;

/** Stores the accounts of sensors in the records store. */
public final class SensorAccountRecords implements SensorAccountStore {
  private static final JsonColumn<String[]> FILTERS = new JsonColumn<>(String[].class, "topics");

  private final Database database;

  public SensorAccountRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<SensorAccount> all() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM sensor_account ORDER BY name")
                .map(
                    (row, context) ->
                        new SensorAccount(
                            row.getString("name"),
                            row.getString("password_hash"),
                            List.of(FILTERS.read(row.getString("topics"))),
                            List.of(FILTERS.read(row.getString("reads"))),
                            instant(row, "created_ms")))
                .list());
  }

  @Override
  public void add(SensorAccount account) {
    database.transaction(
        handle ->
            handle.execute(
                "INSERT INTO sensor_account (name, password_hash, topics, reads, created_ms)"
                    + " VALUES (?, ?, ?, ?, ?)",
                account.name(),
                account.passwordHash(),
                FILTERS.write(account.topics().toArray(new String[0])),
                FILTERS.write(account.reads().toArray(new String[0])),
                account.createdAt()));
  }

  @Override
  public void change(SensorAccount account) {
    database.transaction(
        handle ->
            handle.execute(
                "UPDATE sensor_account SET password_hash = ?, topics = ?, reads = ? WHERE name = ?",
                account.passwordHash(),
                FILTERS.write(account.topics().toArray(new String[0])),
                FILTERS.write(account.reads().toArray(new String[0])),
                account.name()));
  }

  @Override
  public void remove(String name) {
    database.transaction(
        handle -> handle.execute("DELETE FROM sensor_account WHERE name = ?", name));
  }

  @Override
  public AnonymousSensors anonymous(Supplier<AnonymousSensors> first) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT accepted FROM anonymous_sensors")
                .mapTo(String.class)
                .findFirst()
                .map(key -> ofKey(AnonymousSensors.class, key))
                .orElseGet(
                    () -> {
                      AnonymousSensors decided = first.get();
                      handle.execute(
                          "INSERT INTO anonymous_sensors (accepted) VALUES (?)", decided.key());
                      return decided;
                    }));
  }
}
