package tepidarium.records.postgres;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.records.TakeOver.Reason;

/**
 * The lease as it stands in the database.
 *
 * @param ended whether it has ended by the clock of the database
 * @param givenBack why its owner gave it back; null if it did not
 * @param hasReason whether the column of the reason is there; a service of an earlier version made
 *     the table without it
 * @param server identifies this run of the database server; another one after its restart
 * @param readAt when it was read, by the clock of the database
 */
record LeaseRow(
    Owner owner,
    long epoch,
    boolean ended,
    @Nullable Reason givenBack,
    boolean hasReason,
    String server,
    Instant readAt) {
  private static final String QUERY =
      "SELECT owner, epoch, ends_at < clock_timestamp(), to_jsonb(lease) ->> 'given_back',"
          + " jsonb_exists(to_jsonb(lease), 'given_back'),"
          + " pg_postmaster_start_time()::text || inet_server_addr() || inet_server_port(),"
          + " clock_timestamp()"
          + " FROM lease";

  static LeaseRow read(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(QUERY)) {
      if (!row.next()) {
        throw new IllegalStateException("the table lease of the database has no row");
      }
      String reason = row.getString(4);
      return new LeaseRow(
          new Owner(row.getString(1)),
          row.getLong(2),
          row.getBoolean(3),
          reason == null ? null : Reason.ofKey(reason),
          row.getBoolean(5),
          String.valueOf(row.getString(6)),
          row.getTimestamp(7).toInstant());
    }
  }

  /** Whether a service has held the lease before. */
  boolean hadOwner() {
    return !owner.text().isEmpty();
  }

  Reason reason() {
    return givenBack == null ? Reason.ENDED : givenBack;
  }
}
