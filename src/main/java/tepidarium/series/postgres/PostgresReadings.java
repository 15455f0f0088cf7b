package tepidarium.series.postgres;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresFailure;
import tepidarium.postgres.PostgresPool;
import tepidarium.postgres.PostgresServer;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.retry.Reconnect;
import tepidarium.series.ReadingSink;
import tepidarium.series.ReadingSource;
import tepidarium.series.ReadingTrimmer;
import tepidarium.series.Redeliveries;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;
import tepidarium.series.UncertainCounts;
import tepidarium.series.UncertainReadings;
import tepidarium.series.WriteResult;
import tepidarium.series.sql.ReadingQueries;

/**
 * Stores readings in a PostgreSQL database. One thread writes; any number of threads read. See
 * {@link ReadingTables} for the tables.
 */
public final class PostgresReadings
    implements ReadingSink, ReadingSource, ReadingTrimmer, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PostgresReadings.class);
  private static final int BATCH = 5_000;
  private static final int READERS = 4;
  private static final int WRITE_SECONDS = 10;
  private static final int READ_SECONDS = 30;

  /** No partition takes the row. */
  private static final String CHECK_VIOLATION = "23514";

  private final ReadingTables tables;
  private final PostgresPool writer;
  private final PostgresPool readers;
  private final TableWriter rows = new TableWriter("reading", false);
  private final TableWriter uncertainRows = new TableWriter("uncertain_reading", true);
  private final Map<SensorId, Integer> sensorIds = new ConcurrentHashMap<>();

  private final UncertainCounts uncertain;

  /**
   * Months before this instant could not be dropped, because their tables were locked. They are not
   * tried again for the same instant, so that the next batch of deletions need not wait for them.
   */
  private volatile @Nullable Instant lockedBefore;

  /** Connects at the first call, so that the service can start while the database is away. */
  public PostgresReadings(PostgresAddress address) {
    tables = new ReadingTables(address);
    Reconnect reconnect = PostgresServer.reconnect(address);
    writer =
        new PostgresPool(new PostgresServer(address, WRITE_SECONDS), reconnect, 1, this::prepare);
    readers =
        new PostgresPool(
            new PostgresServer(address, READ_SECONDS), reconnect, READERS, this::prepare);
    uncertain = new UncertainCounts(() -> readers.with(TableQueries::uncertain));
  }

  private void prepare(Connection connection) throws SQLException {
    // Another server may have other numbers, if it lost the last changes.
    sensorIds.clear();
    tables.prepare(connection);
  }

  /**
   * Checks that the database answers. Whether it has room for changes shows only when one is made.
   *
   * @throws StoreException when it does not
   */
  public void probe() {
    writer.change(
        connection -> {
          try (Statement statement = connection.createStatement()) {
            statement.execute("SELECT 1");
          }
        });
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    WriteResult result = WriteResult.NOTHING;
    for (int start = 0; start < batch.size(); start += BATCH) {
      List<Reading> part = batch.subList(start, Math.min(batch.size(), start + BATCH));
      try {
        result = result.plus(writeSome(part));
      } catch (StoreException e) {
        if (!PostgresFailure.hasState(e, CHECK_VIOLATION)) {
          throw e;
        }
        tables.forgetMonths();
        result = result.plus(writeSome(part));
      }
    }
    return result;
  }

  private WriteResult writeSome(List<Reading> batch) {
    BitSet again = Redeliveries.repeated(batch, this::delivered);
    List<Reading> certain = new ArrayList<>(batch.size());
    List<Reading> others = new ArrayList<>(0);
    Set<SensorId> sensors = new HashSet<>();
    for (int i = 0; i < batch.size(); i++) {
      if (!again.get(i)) {
        sensors.add(batch.get(i).sensor());
        (batch.get(i).uncertain() ? others : certain).add(batch.get(i));
      }
    }
    makeMonths(certain);
    Map<SensorId, Integer> ids = new HashMap<>();
    WriteResult result =
        writer.with(
            connection -> {
              ids.putAll(ids(connection, sensors));
              return rows.write(connection, certain, ids)
                  .plus(uncertainRows.write(connection, others, ids));
            });
    sensorIds.putAll(ids);
    if (!others.isEmpty()) {
      uncertain.changed();
    }
    return result.plus(new WriteResult(0, again.cardinality()));
  }

  private List<Reading> delivered(SensorId sensor) {
    return readers.with(
        connection -> {
          Integer id = id(connection, sensor);
          return id == null ? List.of() : ReadingQueries.delivered(connection, sensor, id);
        });
  }

  /** In a transaction of its own, so that no other lock is held. */
  private void makeMonths(List<Reading> readings) {
    Set<YearMonth> missing = tables.missing(readings);
    if (!missing.isEmpty()) {
      writer.change(connection -> tables.makeMonths(connection, missing));
      tables.made(missing);
    }
  }

  private Map<SensorId, Integer> ids(Connection connection, Set<SensorId> sensors)
      throws SQLException {
    Map<SensorId, Integer> ids = new HashMap<>();
    List<SensorId> unknown = new ArrayList<>();
    for (SensorId sensor : sensors) {
      Integer id = sensorIds.get(sensor);
      if (id == null) {
        unknown.add(sensor);
      } else {
        ids.put(sensor, id);
      }
    }
    if (!unknown.isEmpty()) {
      try (PreparedStatement statement =
          connection.prepareStatement(
              "INSERT INTO sensor (name) SELECT unnest(?::text[]) ON CONFLICT DO NOTHING")) {
        // Every writer locks names in the same order.
        Object[] names = unknown.stream().map(SensorId::name).sorted().toArray();
        statement.setArray(1, connection.createArrayOf("text", names));
        statement.executeUpdate();
      }
      for (SensorId sensor : unknown) {
        ids.put(sensor, Objects.requireNonNull(id(connection, sensor)));
      }
    }
    return ids;
  }

  /** The row id of a sensor; null if it has sent nothing yet. */
  private @Nullable Integer id(Connection connection, SensorId sensor) throws SQLException {
    Integer known = sensorIds.get(sensor);
    if (known != null) {
      return known;
    }
    try (PreparedStatement statement =
        connection.prepareStatement("SELECT id FROM sensor WHERE name = ?")) {
      statement.setString(1, sensor.name());
      try (ResultSet row = statement.executeQuery()) {
        return row.next() ? (Integer) row.getInt(1) : null;
      }
    }
  }

  @Override
  public Map<Quantity, Samples> read(SensorId sensor, Span span) {
    return read("reading", sensor, span);
  }

  @Override
  public Map<Quantity, Samples> readUncertain(SensorId sensor, Span span) {
    return read("uncertain_reading", sensor, span);
  }

  private Map<Quantity, Samples> read(String table, SensorId sensor, Span span) {
    return readers.with(
        connection -> {
          Integer id = id(connection, sensor);
          return id == null ? Map.of() : ReadingQueries.samples(connection, table, id, span);
        });
  }

  @Override
  public Optional<Instant> firstAt(SensorId sensor, Span span) {
    return readers.with(
        connection -> {
          Integer id = id(connection, sensor);
          return id == null
              ? Optional.empty()
              : ReadingQueries.firstAt(connection, id, span.fromMs(), span.toMs());
        });
  }

  @Override
  public Map<SensorId, SensorSummary> summaries() {
    return readers.with(TableQueries::summaries);
  }

  @Override
  public Map<SensorId, UncertainReadings> uncertain() {
    return uncertain.get();
  }

  @Override
  public Optional<Instant> oldest() {
    return readers.with(ReadingQueries::oldest);
  }

  /** Drops whole months too, which does not count and is not limited. */
  @Override
  public int deleteBefore(Instant instant, int limit) {
    // Two transactions: a dropped month locks out everybody until the commit.
    dropMonths(instant);
    int removed =
        readers.with(
            connection -> {
              int old = TableQueries.deleteBefore(connection, "reading", instant, limit);
              return old
                  + TableQueries.deleteBefore(
                      connection, "uncertain_reading", instant, limit - old);
            });
    uncertain.changed();
    return removed;
  }

  /** Leaves months that another program is reading, such as a dump, for another instant. */
  private void dropMonths(Instant instant) {
    if (instant.equals(lockedBefore)) {
      return;
    }
    try {
      List<YearMonth> dropped = readers.with(connection -> tables.dropMonths(connection, instant));
      if (!dropped.isEmpty()) {
        LOG.info("deleted all raw readings of {}", dropped);
      }
    } catch (StoreException e) {
      if (!PostgresFailure.hasState(e, PostgresFailure.LOCKED)) {
        throw e;
      }
      lockedBefore = instant;
      LOG.debug("old months are dropped next time", e);
    }
  }

  @Override
  public void close() {
    writer.close();
    readers.close();
  }
}
