package tepidarium.records;

import java.time.Instant;
import java.util.List;

/** Stores each change of the machine that works. */
public final class TakeOverRecords {
  private final Database database;

  public TakeOverRecords(Database database) {
    this.database = database;
  }

  /** Stores one. */
  public void add(TakeOver takeOver) {
    database.transaction(
        handle ->
            handle
                .createUpdate(
                    "INSERT INTO take_over (at_ms, machine, previous, reason)"
                        + " VALUES (:at, :machine, :previous, :reason)")
                .bind("at", takeOver.at().toEpochMilli())
                .bind("machine", takeOver.machine())
                .bind("previous", takeOver.previous())
                .bind("reason", takeOver.reason().key())
                .execute());
  }

  /** Returns the newest ones, the latest first. */
  public List<TakeOver> newest(int most) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM take_over ORDER BY id DESC LIMIT :most")
                .bind("most", most)
                .map(
                    (row, context) ->
                        new TakeOver(
                            Instant.ofEpochMilli(row.getLong("at_ms")),
                            row.getString("machine"),
                            row.getString("previous"),
                            TakeOver.Reason.ofKey(row.getString("reason"))))
                .list());
  }

  /** Returns how many there were. */
  public long count() {
    return database.transaction(
        handle -> handle.createQuery("SELECT count(*) FROM take_over").mapTo(Long.class).one());
  }
}
