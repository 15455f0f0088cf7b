package tepidarium.records;

import java.time.LocalDate;
import java.util.List;
import tepidarium.container.ContainerId;
import tepidarium.heat.DayExtremes;
import tepidarium.heat.DayExtremesStore;

/** Stores manually entered daily minimum and maximum temperatures in the records store. */
public final class DayExtremesRecords implements DayExtremesStore {
  private final Database database;

  public DayExtremesRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<DayExtremes> days(ContainerId container) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM day_extremes WHERE container_id = :id ORDER BY day")
                .bind("id", container.value())
                .map(
                    (row, context) ->
                        new DayExtremes(
                            LocalDate.parse(row.getString("day")),
                            row.getDouble("min_c"),
                            row.getDouble("max_c")))
                .list());
  }

  @Override
  public void put(ContainerId container, DayExtremes day) {
    database.transaction(
        handle ->
            handle.execute(
                "INSERT INTO day_extremes (container_id, day, min_c, max_c) VALUES (?, ?, ?, ?)"
                    + " ON CONFLICT (container_id, day)"
                    + " DO UPDATE SET min_c = excluded.min_c, max_c = excluded.max_c",
                container.value(),
                day.day().toString(),
                day.minC(),
                day.maxC()));
  }

  @Override
  public boolean remove(ContainerId container, LocalDate day) {
    return database.transaction(
        handle ->
            handle.execute(
                    "DELETE FROM day_extremes WHERE container_id = ? AND day = ?",
                    container.value(),
                    day.toString())
                > 0);
  }
}
