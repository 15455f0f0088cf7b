package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.CqlIdentifier;
import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.cql.ResultSet;
import com.datastax.oss.driver.api.core.cql.Row;
import com.datastax.oss.driver.api.core.cql.SimpleStatement;
import com.datastax.oss.driver.api.core.metadata.Metadata;
import com.datastax.oss.driver.api.core.metadata.Node;
import com.datastax.oss.driver.api.core.metadata.schema.KeyspaceMetadata;
import com.datastax.oss.driver.api.core.metadata.schema.TableMetadata;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.reading.Quantity;
import tepidarium.series.ScaledValue;

/**
 * Creates the keyspace and its tables where they are missing. Readings have a partition for each
 * day (UTC) of a group of sensors. The columns of the values follow from {@link Quantity}.
 *
 * <ul>
 *   <li>{@code reading}, {@code uncertain_reading}: the readings
 *   <li>{@code sensor_day}, {@code uncertain_day}: on which days each sensor has readings
 *   <li>{@code stored_day}: all days with readings, see {@link StoredDays}
 * </ul>
 */
final class CassandraTables {
  private static final Logger LOG = LoggerFactory.getLogger(CassandraTables.class);

  /** Raised when a later version of this program can no longer be used beside this one. */
  private static final int FORMAT = 1;

  private static final int USUAL_COPIES = 3;
  private static final Duration CHANGE_LIMIT = Duration.ofSeconds(30);

  /** Names of the columns of the values, separated by commas. */
  static final String VALUES =
      Arrays.stream(Quantity.values()).map(Quantity::key).collect(Collectors.joining(", "));

  private CassandraTables() {}

  /** The smallest type that holds every plausible value. */
  static boolean isWide(Quantity quantity) {
    return quantity.plausible(ScaledValue.value(Integer.MAX_VALUE + 1L));
  }

  private static String column(Quantity quantity) {
    return quantity.key() + (isWide(quantity) ? " bigint" : " int");
  }

  /**
   * Prepares the keyspace.
   *
   * @throws IllegalStateException when a later version of this program has written the tables, or
   *     the nodes do not agree on them
   */
  static void prepare(CqlSession session, CassandraAddress address) {
    CqlIdentifier name = CqlIdentifier.fromInternal(address.keyspace());
    if (session.getMetadata().getKeyspace(name).isEmpty()) {
      createKeyspace(session, address);
    }
    KeyspaceMetadata keyspace = keyspace(session.getMetadata(), address);
    tellCopies(keyspace, address);
    if (keyspace.getTable("format").isEmpty()) {
      createTables(session, address);
      keyspace = keyspace(session.refreshSchema(), address);
    }
    Row format =
        session.execute("SELECT version FROM " + address.keyspace() + ".format WHERE id = 0").one();
    if (format == null) {
      session.execute(
          "INSERT INTO " + address.keyspace() + ".format (id, version) VALUES (0, " + FORMAT + ")");
    } else if (format.getInt(0) > FORMAT) {
      throw new IllegalStateException(
          "the readings in the keyspace "
              + address
              + " were written by a later version of Tepidarium. Start the later version again, or"
              + " name another keyspace in readingsUrl");
    }
    for (String table : List.of("reading", "uncertain_reading")) {
      addColumns(
          session, address, keyspace.getTable(table).orElseThrow(() -> disagreement(address)));
    }
  }

  /** The nodes of a young cluster may still differ after they said that they agree. */
  private static KeyspaceMetadata keyspace(Metadata metadata, CassandraAddress address) {
    return metadata
        .getKeyspace(CqlIdentifier.fromInternal(address.keyspace()))
        .orElseThrow(() -> disagreement(address));
  }

  private static IllegalStateException disagreement(CassandraAddress address) {
    return new IllegalStateException(
        "the nodes of the keyspace "
            + address
            + " do not agree on its tables. If that lasts, look at nodetool describecluster, and"
            + " restart the nodes that differ");
  }

  private static void createKeyspace(CqlSession session, CassandraAddress address) {
    long nodes =
        session.getMetadata().getNodes().values().stream()
            .map(Node::getDatacenter)
            .filter(address.dataCentre()::equals)
            .count();
    change(
        session,
        address,
        String.format(
            Locale.ROOT,
            "CREATE KEYSPACE IF NOT EXISTS %s WITH replication ="
                + " {'class': 'NetworkTopologyStrategy', '%s': %d}",
            address.keyspace(),
            address.dataCentre().replace("'", "''"),
            Math.min(USUAL_COPIES, nodes)));
  }

  private static void tellCopies(KeyspaceMetadata keyspace, CassandraAddress address) {
    Map<String, String> replication = keyspace.getReplication();
    String copies =
        replication.getOrDefault(
            address.dataCentre(), replication.getOrDefault("replication_factor", ""));
    if (copies.equals("1") || copies.equals("2")) {
      LOG.warn(
          "the keyspace {} has replication {}: one node that is away stops it. Use 3 on three or"
              + " more machines",
          address,
          copies);
    }
  }

  private static void createTables(CqlSession session, CassandraAddress address) {
    String keyspace = address.keyspace();
    String readings =
        " (sensor_group int, day int, sensor text, at bigint, delivery int, "
            + Arrays.stream(Quantity.values())
                .map(CassandraTables::column)
                .collect(Collectors.joining(", "))
            + ", PRIMARY KEY ((sensor_group, day), sensor, at))"
            + " WITH compaction = {'class': 'UnifiedCompactionStrategy'}"
            + " AND compression = {'class': 'ZstdCompressor', 'chunk_length_in_kb': 16}";
    String days = " (sensor text, day int, PRIMARY KEY (sensor, day))";
    for (String table :
        List.of(
            "reading" + readings,
            "uncertain_reading" + readings,
            "sensor_day" + days,
            "uncertain_day" + days,
            "stored_day (id int, day int, lives int, stored boolean, PRIMARY KEY (id, day))",
            // The last one, so that an interrupted creation goes on.
            "format (id int PRIMARY KEY, version int)")) {
      change(session, address, "CREATE TABLE IF NOT EXISTS " + keyspace + '.' + table);
    }
  }

  private static void addColumns(
      CqlSession session, CassandraAddress address, TableMetadata table) {
    for (Quantity quantity : Quantity.values()) {
      if (table.getColumn(quantity.key().toLowerCase(Locale.ROOT)).isEmpty()) {
        change(
            session,
            address,
            "ALTER TABLE "
                + address.keyspace()
                + '.'
                + table.getName().asInternal()
                + " ADD "
                + column(quantity));
      }
    }
  }

  private static void change(CqlSession session, CassandraAddress address, String cql) {
    ResultSet done = session.execute(SimpleStatement.newInstance(cql).setTimeout(CHANGE_LIMIT));
    if (!done.getExecutionInfo().isSchemaInAgreement()) {
      throw disagreement(address);
    }
  }
}
