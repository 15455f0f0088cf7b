package tepidarium.records;

import java.sql.DatabaseMetaData;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.result.ResultIterator;
import org.jdbi.v3.core.statement.MetaData;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;

/**
 * Copies all records from one database to another, in one transaction, with the keys that they
 * have. Either of them may be a file or PostgreSQL.
 */
public final class RecordsCopy {
  /** Rows in memory at a time; one with a photo takes up to some hundred KB. */
  private static final int ROWS = 20;

  private record CopiedTable(String name, @Nullable String numbered) {}

  /**
   * Every table, with the column that the database numbers. A table stands after the tables to
   * which it refers. The lease in PostgreSQL and the services that wait for it are not copied.
   */
  private static final List<CopiedTable> TABLES =
      List.of(
          new CopiedTable("container", null),
          new CopiedTable("placement", null),
          new CopiedTable("calibration", null),
          new CopiedTable("calibration_point", "id"),
          new CopiedTable("opening", null),
          new CopiedTable("declined_opening", null),
          new CopiedTable("day_extremes", null),
          new CopiedTable("sensor_details", null),
          new CopiedTable("sensor_status", null),
          new CopiedTable("alert", null),
          new CopiedTable("alert_last_id", null),
          new CopiedTable("alert_transition", "id"),
          new CopiedTable("alert_condition", null),
          new CopiedTable("alert_rule", null),
          new CopiedTable("notice_told", null),
          new CopiedTable("notice", "id"),
          new CopiedTable("notice_about", null),
          new CopiedTable("notice_delivery", "id"),
          new CopiedTable("service_trouble", null),
          new CopiedTable("reject", "id"),
          new CopiedTable("fault_decision", "id"),
          new CopiedTable("arrival_fault", "id"),
          new CopiedTable("species", null),
          new CopiedTable("species_figure", null),
          new CopiedTable("seed_lot", null),
          // A correction comes after the entry that it names.
          new CopiedTable("seed_entry", "number"),
          new CopiedTable("seed_photo", null),
          new CopiedTable("season", "id"),
          new CopiedTable("clock_seen", null),
          new CopiedTable("mapping_rule", "id"),
          new CopiedTable("import_profile", null),
          new CopiedTable("person", "id"),
          new CopiedTable("session", "id"),
          new CopiedTable("api_token", "id"),
          new CopiedTable("sensor_account", null),
          new CopiedTable("anonymous_sensors", null),
          new CopiedTable("take_over", "id"));

  private RecordsCopy() {}

  /** The names of the tables that are copied. */
  public static List<String> tables() {
    return TABLES.stream().map(CopiedTable::name).toList();
  }

  /** The sum of each table. Databases of the same rows have the same sums, whatever their kind. */
  public static Map<String, RowSum> sums(Database database) {
    return database.transaction(RecordsCopy::sums);
  }

  private static Map<String, RowSum> sums(Handle handle) {
    Map<String, RowSum> sums = new TreeMap<>();
    for (CopiedTable table : TABLES) {
      RowSum sum = RowSum.NONE;
      try (ResultIterator<Map<String, Object>> rows = rows(handle, table)) {
        while (rows.hasNext()) {
          sum = sum.plus(rows.next());
        }
      }
      sums.put(table.name(), sum);
    }
    return sums;
  }

  /**
   * Replaces the rows of the target by those of the source, and compares the sums before the
   * commit. If this throws, the target is as it was.
   *
   * @return number of rows
   * @throws tepidarium.series.StoreException when one of them cannot do it now
   * @throws IllegalStateException when the target gives other rows back than were written
   */
  public static long copy(Database source, Database target) {
    return source.transaction(from -> target.transaction(to -> copy(from, to)));
  }

  private static long copy(Handle from, Handle to) {
    for (int i = TABLES.size() - 1; i >= 0; i--) {
      to.execute("DELETE FROM " + TABLES.get(i).name());
    }
    boolean postgres = isPostgres(to);
    for (CopiedTable table : TABLES) {
      copy(table, from, to, postgres);
      if (table.numbered() != null) {
        continueNumbers(table, highest(table, from), to, postgres);
      }
    }
    Map<String, RowSum> wanted = sums(from);
    Map<String, RowSum> written = sums(to);
    if (!wanted.equals(written)) {
      throw new IllegalStateException(
          "the records were not stored as they are in these tables: "
              + String.join(", ", different(wanted, written))
              + ". The target is unchanged");
    }
    return rows(wanted);
  }

  /** The number of rows of all tables. */
  public static long rows(Map<String, RowSum> sums) {
    return sums.values().stream().mapToLong(RowSum::rows).sum();
  }

  /** The tables whose sums differ. */
  public static List<String> different(Map<String, RowSum> one, Map<String, RowSum> other) {
    return tables().stream()
        .filter(name -> !Objects.equals(one.get(name), other.get(name)))
        .toList();
  }

  private static boolean isPostgres(Handle handle) {
    MetaData.MetaDataValueProvider<String> product = DatabaseMetaData::getDatabaseProductName;
    return handle.queryMetadata(product).equals("PostgreSQL");
  }

  private static ResultIterator<Map<String, Object>> rows(Handle handle, CopiedTable table) {
    String order = table.numbered() == null ? "" : " ORDER BY " + table.numbered();
    Query query = handle.createQuery("SELECT * FROM " + table.name() + order);
    return query.setFetchSize(ROWS).mapToMap().iterator();
  }

  private static void copy(CopiedTable table, Handle from, Handle to, boolean postgres) {
    Set<String> flags = postgres ? flags(to, table) : Set.of();
    try (ResultIterator<Map<String, Object>> rows = rows(from, table)) {
      while (rows.hasNext()) {
        insert(table, some(rows), flags, to, postgres);
      }
    }
  }

  private static List<Map<String, Object>> some(Iterator<Map<String, Object>> rows) {
    List<Map<String, Object>> some = new ArrayList<>(ROWS);
    while (some.size() < ROWS && rows.hasNext()) {
      some.add(rows.next());
    }
    return some;
  }

  private static void insert(
      CopiedTable table,
      List<Map<String, Object>> rows,
      Set<String> flags,
      Handle to,
      boolean postgres) {
    List<String> columns = List.copyOf(rows.get(0).keySet());
    String sql =
        "INSERT INTO "
            + table.name()
            + " ("
            + String.join(", ", columns)
            + (postgres ? ") OVERRIDING SYSTEM VALUE VALUES (" : ") VALUES (")
            + columns.stream().map(column -> "?").collect(Collectors.joining(", "))
            + ')';
    try (PreparedBatch batch = to.prepareBatch(sql)) {
      for (Map<String, Object> row : rows) {
        for (int i = 0; i < columns.size(); i++) {
          String column = columns.get(i);
          Object value = row.get(column);
          batch.bind(
              i,
              value instanceof Number number && flags.contains(column)
                  ? (Object) (number.longValue() != 0)
                  : value);
        }
        batch.add();
      }
      batch.execute();
    }
  }

  /** The columns that are true or false in PostgreSQL; a file has 1 and 0 for them. */
  private static Set<String> flags(Handle to, CopiedTable table) {
    return new HashSet<>(
        to.createQuery(
                "SELECT column_name FROM information_schema.columns WHERE table_schema = current_schema()"
                    + " AND data_type = 'boolean' AND table_name = ?")
            .bind(0, table.name())
            .mapTo(String.class)
            .list());
  }

  /** The highest number that a table has ever given; 0 for none. */
  private static long highest(CopiedTable table, Handle handle) {
    String sql =
        isPostgres(handle)
            ? "SELECT coalesce(pg_sequence_last_value(pg_get_serial_sequence('"
                + table.name()
                + "', '"
                + table.numbered()
                + "')::regclass), 0)"
            : "SELECT coalesce(max(seq), 0) FROM sqlite_sequence WHERE name = '"
                + table.name()
                + "'";
    return handle.createQuery(sql).mapTo(Long.class).one();
  }

  /** Lets the numbers of new rows go on after the highest one that was ever given. */
  private static void continueNumbers(
      CopiedTable table, long highest, Handle to, boolean postgres) {
    if (highest == 0) {
      return;
    }
    if (postgres) {
      to.createQuery(
              "SELECT setval(pg_get_serial_sequence('"
                  + table.name()
                  + "', '"
                  + table.numbered()
                  + "'), "
                  + highest
                  + ")")
          .mapTo(Long.class)
          .one();
    } else {
      to.execute("DELETE FROM sqlite_sequence WHERE name = ?", table.name());
      to.execute("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", table.name(), highest);
    }
  }
}
