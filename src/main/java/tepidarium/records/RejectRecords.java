package tepidarium.records;

import java.util.List;
import org.jdbi.v3.core.statement.PreparedBatch;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.ingest.RejectLog;

/** Stores the log of rejected messages in the records store; keeps the newest 1,000 lines. */
public final class RejectRecords implements RejectLog {
  /** Number of newest lines to keep. */
  public static final int KEPT = 1_000;

  private final Database database;

  public RejectRecords(Database database) {
    this.database = database;
  }

  @Override
  public void add(List<Reject> rejects) {
    database.transaction(
        handle -> {
          PreparedBatch batch =
              handle.prepareBatch(
                  "INSERT INTO reject (at_ms, topic, code, reason, payload)"
                      + " VALUES (:at, :topic, :code.key, :reason, :payload)");
          rejects.forEach(reject -> batch.bindMethods(reject).add());
          batch.execute();
          return handle.execute(
              "DELETE FROM reject WHERE id <= (SELECT max(id) FROM reject) - ?", KEPT);
        });
  }

  @Override
  public List<Line> newest(int most) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM reject ORDER BY id DESC LIMIT :most")
                .bind("most", most)
                .map(
                    (row, context) ->
                        new Line(
                            row.getLong("id"),
                            new Reject(
                                Columns.instant(row, "at_ms"),
                                row.getString("topic"),
                                RejectCode.ofKey(row.getString("code")),
                                row.getString("reason"),
                                row.getString("payload"))))
                .list());
  }
}
