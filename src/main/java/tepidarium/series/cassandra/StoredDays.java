package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.cql.BoundStatement;
import com.datastax.oss.driver.api.core.cql.PreparedStatement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * Keeps the days with readings, and assigns the write times of changes in them. Of two values for
 * one cell, Cassandra keeps the one with the later write time. Write times therefore descend: the
 * value that is written first stays, also where two services write at once. A deletion has a later
 * write time than all readings of its day and would hide readings that come afterwards. It
 * therefore begins a new life of the day, whose write times are all later than the deletion. Not
 * thread-safe.
 */
final class StoredDays {
  static final long DAY_MS = Duration.ofDays(1).toMillis();

  /**
   * The span of the write times of one life, microseconds; the clock passes it in the year 2096.
   */
  private static final long LIFE_MICROS = 4_000_000_000_000_000L;

  private final CassandraServer server;
  private final Clock clock;
  private final Map<Integer, Integer> lives = new HashMap<>();
  private final Set<Integer> stored = new HashSet<>();
  private boolean known;
  private long lastMicros;

  StoredDays(CassandraServer server, Clock clock) {
    this.server = server;
    this.clock = clock;
  }

  /** The number of the day (UTC) of an instant, from 1970-01-01. */
  static int day(long atMs) {
    return Math.toIntExact(Math.floorDiv(atMs, DAY_MS));
  }

  /** The changes that record which of these days have readings. Call {@link #added} after them. */
  List<BoundStatement> additions(Collection<Integer> days) {
    load();
    PreparedStatement insert =
        server.prepare(
            "INSERT INTO " + server.table("stored_day") + " (id, day, stored) VALUES (0, ?, true)");
    return days.stream().filter(day -> !stored.contains(day)).map(day -> insert.bind(day)).toList();
  }

  /** The days are recorded. */
  void added(Collection<Integer> days) {
    stored.addAll(days);
  }

  /** The days with readings before a day. */
  SortedSet<Integer> before(int day) {
    load();
    SortedSet<Integer> days = new TreeSet<>(stored);
    return days.headSet(day);
  }

  /** The write time of readings of a day. A new call gives an earlier time. */
  long writeTime(int day) {
    load();
    // A millisecond is too long: the next service can write in it, and the greater value would
    // stay.
    long micros = ChronoUnit.MICROS.between(Instant.EPOCH, clock.instant());
    lastMicros = Math.max(lastMicros + 1, micros);
    return lives.getOrDefault(day, 0) * LIFE_MICROS + LIFE_MICROS - lastMicros;
  }

  /**
   * Begins new lives of days. They still count as days with readings, so that a deletion that fails
   * is done again.
   *
   * @return the write time at which readings of the lives before are to be deleted, by day
   */
  Map<Integer, Long> beginLives(Collection<Integer> days) {
    load();
    PreparedStatement insert =
        server.prepare(
            "INSERT INTO "
                + server.table("stored_day")
                + " (id, day, lives, stored) VALUES (0, ?, ?, true)");
    Map<Integer, Long> deletions = new HashMap<>();
    List<BoundStatement> changes = new ArrayList<>();
    for (int day : days) {
      int next = lives.getOrDefault(day, 0) + 1;
      deletions.put(day, next * LIFE_MICROS);
      changes.add(insert.bind(day, next));
    }
    server.run(changes);
    days.forEach(day -> lives.merge(day, 1, Integer::sum));
    return deletions;
  }

  /** Records that days have no readings. Call it after their readings are deleted. */
  void emptied(Collection<Integer> days) {
    PreparedStatement update =
        server.prepare(
            "INSERT INTO "
                + server.table("stored_day")
                + " (id, day, stored) VALUES (0, ?, false)");
    // First, because a part may be recorded when this fails. A late reading then records its day.
    stored.removeAll(days);
    server.run(days.stream().map(day -> update.bind(day)).toList());
  }

  private void load() {
    if (!known) {
      PreparedStatement all =
          server.prepare(
              "SELECT day, lives, stored FROM " + server.table("stored_day") + " WHERE id = 0");
      server.run(
          List.of(all.bind()),
          (statement, row) -> {
            lives.put(row.getInt(0), row.getInt(1));
            if (row.getBoolean(2)) {
              stored.add(row.getInt(0));
            }
          });
      known = true;
    }
  }
}
