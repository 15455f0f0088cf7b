package tepidarium.records;

import static tepidarium.records.Columns.instant;
import static tepidarium.records.Columns.instantOrNull;
import static tepidarium.records.Columns.ms;
import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.reflect.ConstructorMapper;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.NoticeKind;
import tepidarium.alert.notify.NoticeStore;
import tepidarium.alert.notify.NotificationState;
import tepidarium.alert.notify.Trouble;

/**
 * Stores notices and the outbox in the records store. Keeps the newest 1,000 notices, and older
 * ones that have a waiting delivery.
 */
public final class NoticeRecords implements NoticeStore {
  /** Number of newest notices to keep, in addition to those with a waiting delivery. */
  public static final int KEPT = 1_000;

  /**
   * Number of due deliveries of each notifier that are read at once. A notifier with a long queue
   * does not keep the others waiting.
   */
  static final int MAX_DUE = 100;

  /**
   * A waiting delivery that is due more than 1 h from now counts as due now. No retry is delayed by
   * 1 h, so the clock must have been set back after the delivery was scheduled.
   */
  private static final long CLOCK_SET_BACK_MS = 3_600_000;

  private static final String PERHAPS_SENT =
      "the service ended before it knew whether the receiver took the message; it is not sent again";

  private static final String DELIVERIES =
      """
      SELECT d.id, d.notice_id, d.notifier, d.state, d.attempts, d.next_ms, d.settled_ms, d.words,
        n.kind, n.priority, n.created_ms, n.subject, n.body, n.link
      FROM notice_delivery d JOIN notice n ON n.id = d.notice_id
      """;

  private final Database database;

  public NoticeRecords(Database database) {
    this.database = database;
  }

  @Override
  public Map<String, NotificationState> notificationStates() {
    Map<String, NotificationState> states = new HashMap<>();
    database
        .transaction(
            handle ->
                handle
                    .createQuery(
                        "SELECT concern AS subject, topic, stage, raised_ms AS raised_at,"
                            + " reminded_ms AS reminded_at, escalated_ms AS escalated_at"
                            + " FROM notice_told")
                    .map(ConstructorMapper.of(NotificationState.class))
                    .list())
        .forEach(each -> states.put(each.subject(), each));
    return states;
  }

  @Override
  public void saveStates(Collection<NotificationState> changed, Set<String> removedKeys) {
    database.transaction(
        handle -> {
          changed.forEach(each -> put(handle, each));
          removedKeys.forEach(
              key -> handle.execute("DELETE FROM notice_told WHERE concern = ?", key));
          return changed.size();
        });
  }

  private static void put(Handle handle, NotificationState state) {
    String sql =
        """
        INSERT INTO notice_told (concern, topic, stage, raised_ms, reminded_ms, escalated_ms)
        VALUES (:subject, :topic, :stage, :raisedAt, :remindedAt, :escalatedAt)
        ON CONFLICT (concern) DO UPDATE SET stage = excluded.stage, raised_ms = excluded.raised_ms,
          reminded_ms = excluded.reminded_ms, escalated_ms = excluded.escalated_ms
        """;
    handle.createUpdate(sql).bindMethods(state).execute();
  }

  @Override
  public void add(Notice notice, List<String> notifiers, Collection<NotificationState> states) {
    database.transaction(
        handle -> {
          long id = insert(handle, notice);
          for (int position = 0; position < notice.about().size(); position++) {
            Notice.About about = notice.about().get(position);
            handle
                .createUpdate(
                    "INSERT INTO notice_about (notice_id, position, alert_id, container_id, topic,"
                        + " active) VALUES (:notice, :position, :alert, :container, :topic, :active)")
                .bind("notice", id)
                .bind("position", position)
                .bindMethods(about)
                .execute();
          }
          for (String notifier : notifiers) {
            handle.execute(
                "INSERT INTO notice_delivery (notice_id, notifier, state, attempts, next_ms)"
                    + " VALUES (?, ?, 'waiting', 0, ?)",
                id,
                notifier,
                ms(notice.createdAt()));
          }
          states.forEach(each -> put(handle, each));
          return deleteOldest(handle, id);
        });
  }

  @Override
  public Optional<Instant> newestOf(NoticeKind kind) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT max(created_ms) FROM notice WHERE kind = :kind")
                .bind("kind", kind.key())
                .mapTo(Long.class)
                .findOne()
                .map(Instant::ofEpochMilli));
  }

  private static long insert(Handle handle, Notice notice) {
    return handle
        .createUpdate(
            "INSERT INTO notice (kind, priority, created_ms, subject, body, link)"
                + " VALUES (:kind.key, :priority.key, :createdAt, :subject, :text, :link)")
        .bindMethods(notice)
        .executeAndReturnGeneratedKeys("id")
        .mapTo(Long.class)
        .one();
  }

  private static int deleteOldest(Handle handle, long newest) {
    return handle.execute(
        "DELETE FROM notice WHERE id <= ? AND NOT EXISTS (SELECT 1 FROM notice_delivery d"
            + " WHERE d.notice_id = notice.id AND d.state = 'waiting')",
        newest - KEPT);
  }

  @Override
  public List<Delivery> due(Instant now) {
    long nowMs = now.toEpochMilli();
    return deliveries(
        DELIVERIES
            + " WHERE d.id IN (SELECT id FROM (SELECT id, row_number() OVER"
            + " (PARTITION BY notifier ORDER BY id) AS place FROM notice_delivery"
            + " WHERE state = 'waiting' AND claimed_ms IS NULL AND (next_ms <= :now OR next_ms > :ahead)) AS ranked"
            + " WHERE place <= :limit) ORDER BY d.id",
        Map.of("now", nowMs, "ahead", nowMs + CLOCK_SET_BACK_MS, "limit", MAX_DUE));
  }

  @Override
  public List<Delivery> newest(Delivery.@Nullable State state, int limit) {
    String where = state == null ? "" : " WHERE d.state = '" + state.key() + '\'';
    return deliveries(
        DELIVERIES + where + " ORDER BY d.id DESC LIMIT :limit", Map.of("limit", limit));
  }

  private List<Delivery> deliveries(String sql, Map<String, Object> values) {
    return database.transaction(
        handle -> {
          Map<Long, List<Notice.About>> about = new HashMap<>();
          return handle
              .createQuery(sql)
              .bindMap(values)
              .map((row, context) -> delivery(row, handle, about))
              .list();
        });
  }

  private static Delivery delivery(
      ResultSet row, Handle handle, Map<Long, List<Notice.About>> known) throws SQLException {
    long id = row.getLong("notice_id");
    @Nullable String link = row.getString("link");
    @Nullable String words = row.getString("words");
    Notice notice =
        new Notice(
            id,
            ofKey(NoticeKind.class, row.getString("kind")),
            ofKey(Priority.class, row.getString("priority")),
            instant(row, "created_ms"),
            row.getString("subject"),
            row.getString("body"),
            link,
            known.computeIfAbsent(id, each -> about(handle, each)));
    return new Delivery(
        row.getLong("id"),
        notice,
        row.getString("notifier"),
        ofKey(Delivery.State.class, row.getString("state")),
        row.getInt("attempts"),
        instant(row, "next_ms"),
        instantOrNull(row, "settled_ms"),
        words);
  }

  private static List<Notice.About> about(Handle handle, long notice) {
    return new ArrayList<>(
        handle
            .createQuery("SELECT * FROM notice_about WHERE notice_id = :notice ORDER BY position")
            .bind("notice", notice)
            .map(
                (row, context) -> {
                  long alert = row.getLong("alert_id");
                  @Nullable Long number = row.wasNull() ? null : alert;
                  @Nullable String container = row.getString("container_id");
                  return new Notice.About(
                      number, container, row.getString("topic"), row.getBoolean("active"));
                })
            .list());
  }

  @Override
  public boolean claim(long delivery, Instant now) {
    return database.transaction(
        handle ->
            handle.execute(
                    "UPDATE notice_delivery SET claimed_ms = ?"
                        + " WHERE id = ? AND state = 'waiting' AND claimed_ms IS NULL",
                    ms(now),
                    delivery)
                == 1);
  }

  @Override
  public int settleClaimed() {
    return database.transaction(
        handle ->
            handle
                .createUpdate(
                    "UPDATE notice_delivery SET state = :state, attempts = attempts + 1,"
                        + " settled_ms = claimed_ms, claimed_ms = NULL, words = :words"
                        + " WHERE claimed_ms IS NOT NULL")
                .bind("state", Delivery.State.PERHAPS_SENT.key())
                .bind("words", PERHAPS_SENT)
                .execute());
  }

  @Override
  public void update(Delivery delivery) {
    database.transaction(
        handle ->
            handle
                .createUpdate(
                    "UPDATE notice_delivery SET state = :state.key, attempts = :attempts,"
                        + " next_ms = :nextAt, settled_ms = :settledAt, words = :words,"
                        + " claimed_ms = NULL"
                        + " WHERE id = :id")
                .bindMethods(delivery)
                .execute());
  }

  @Override
  public Map<String, DeliveryCounts> deliveryCounts() {
    String sql =
        """
        SELECT notifier,
          count(CASE WHEN state = 'waiting' THEN 1 END) AS waiting,
          count(CASE WHEN state = 'failed' THEN 1 END) AS failed,
          max(CASE WHEN state = 'delivered' THEN settled_ms END) AS delivered_ms,
          max(CASE WHEN state = 'failed' THEN settled_ms END) AS failed_ms,
          (SELECT w.words FROM notice_delivery w WHERE w.notifier = d.notifier
            AND w.state = 'waiting' AND w.words IS NOT NULL ORDER BY w.id LIMIT 1) AS words
        FROM notice_delivery d GROUP BY notifier
        """;
    record Line(String notifier, DeliveryCounts counts) {}
    Map<String, DeliveryCounts> counts = new LinkedHashMap<>();
    database
        .transaction(
            handle ->
                handle
                    .createQuery(sql)
                    .map((row, context) -> new Line(row.getString("notifier"), deliveryCounts(row)))
                    .list())
        .forEach(line -> counts.put(line.notifier(), line.counts()));
    return counts;
  }

  private static DeliveryCounts deliveryCounts(ResultSet row) throws SQLException {
    @Nullable String words = row.getString("words");
    return new DeliveryCounts(
        row.getLong("waiting"),
        row.getLong("failed"),
        instantOrNull(row, "delivered_ms"),
        instantOrNull(row, "failed_ms"),
        words);
  }

  @Override
  public List<Trouble> troubles() {
    return database.transaction(
        handle ->
            handle
                .createQuery(
                    "SELECT kind, since_ms AS since, ended_ms AS ended_at, detail"
                        + " FROM service_trouble ORDER BY kind")
                .map(ConstructorMapper.of(Trouble.class))
                .list());
  }

  @Override
  public void put(Trouble trouble) {
    database.transaction(
        handle ->
            handle
                .createUpdate(
                    """
                    INSERT INTO service_trouble (kind, since_ms, ended_ms, detail)
                    VALUES (:kind.key, :since, :endedAt, :detail)
                    ON CONFLICT (kind) DO UPDATE SET since_ms = excluded.since_ms,
                      ended_ms = excluded.ended_ms, detail = excluded.detail
                    """)
                .bindMethods(trouble)
                .execute());
  }
}
