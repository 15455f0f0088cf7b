package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.cql.Row;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.series.SensorSummary;

/**
 * Summarises all sensors. It asks for the newest readings of every sensor side by side, day after
 * day into the past, until the newest {@link #LOOK_BACK} readings or {@link #DAYS} days of each
 * sensor are seen. Not thread-safe.
 */
final class SensorSummaries {
  /** Number of newest readings in which the latest value of each quantity is searched. */
  private static final int LOOK_BACK = 200;

  /** Days with readings in which it is searched. */
  private static final int DAYS = 8;

  private final CassandraServer server;
  private final SensorRows rows;

  /** What is known of one sensor. */
  private static final class Search {
    private final SensorId sensor;
    private final int firstDay;
    private final Map<Quantity, SensorSummary.Value> latest = new EnumMap<>(Quantity.class);
    private int day = Integer.MAX_VALUE;
    private int seen;
    private @Nullable Instant first;
    private @Nullable Instant last;

    Search(SensorId sensor, int firstDay) {
      this.sensor = sensor;
      this.firstDay = firstDay;
    }

    void add(Row row) {
      Instant at = Instant.ofEpochMilli(row.getLong(0));
      last = last == null ? at : last;
      seen++;
      for (Quantity quantity : Quantity.values()) {
        Double value = SensorRows.value(row, quantity);
        if (value != null) {
          latest.putIfAbsent(quantity, new SensorSummary.Value(value, at));
        }
      }
    }

    boolean isDone() {
      return seen >= LOOK_BACK || latest.size() == Quantity.values().length;
    }
  }

  SensorSummaries(CassandraServer server, SensorRows rows) {
    this.server = server;
    this.rows = rows;
  }

  Map<SensorId, SensorSummary> all() {
    List<Search> searches = new ArrayList<>();
    rows.firstDays().forEach((sensor, day) -> searches.add(new Search(sensor, day)));
    findFirst(searches);
    searches.removeIf(one -> one.first == null);
    findLatest(searches);
    Map<SensorId, SensorSummary> summaries = new LinkedHashMap<>();
    for (Search search : searches) {
      if (search.first != null && search.last != null) {
        summaries.put(search.sensor, new SensorSummary(search.first, search.last, search.latest));
      }
    }
    return summaries;
  }

  private void findFirst(List<Search> searches) {
    server.run(
        searches.stream()
            .map(one -> rows.first(one.sensor, one.firstDay, Long.MIN_VALUE, Long.MAX_VALUE))
            .toList(),
        (query, row) -> searches.get(query).first = Instant.ofEpochMilli(row.getLong(0)));
    for (Search search : searches) {
      if (search.first == null) {
        List<Integer> later = rows.days(search.sensor, search.firstDay + 1, Integer.MAX_VALUE);
        search.first =
            rows.firstAt(search.sensor, later, Long.MIN_VALUE, Long.MAX_VALUE)
                .map(Instant::ofEpochMilli)
                .orElse(null);
      }
    }
  }

  private void findLatest(List<Search> searches) {
    List<Search> open = searches;
    for (int round = 0; round < DAYS && !open.isEmpty(); round++) {
      Map<SensorId, Integer> before = new HashMap<>();
      open.forEach(one -> before.put(one.sensor, one.day));
      Map<SensorId, List<Integer>> days = rows.newestDays(before, 1);
      List<Search> asked = new ArrayList<>();
      for (Search search : open) {
        List<Integer> day = days.get(search.sensor);
        if (day != null) {
          search.day = day.get(0);
          asked.add(search);
        }
      }
      server.run(
          asked.stream()
              .map(one -> rows.newest(one.sensor, one.day, LOOK_BACK - one.seen))
              .toList(),
          (query, row) -> asked.get(query).add(row));
      open = asked.stream().filter(one -> !one.isDone()).toList();
    }
  }
}
