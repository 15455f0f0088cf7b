package tepidarium.records;

import java.time.Instant;
import java.util.Optional;

/** Stores the last instant at which the clock of this machine was trusted. */
public final class ClockRecords {
  private final Database database;

  public ClockRecords(Database database) {
    this.database = database;
  }

  /** The last stored instant; empty if none was stored yet. */
  public Optional<Instant> lastSeen() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT seen_ms FROM clock_seen")
                .mapTo(Long.class)
                .findOne()
                .map(Instant::ofEpochMilli));
  }

  /** Stores an instant; replaces the previous one. */
  public void store(Instant instant) {
    database.transaction(
        handle ->
            handle
                .createUpdate(
                    "INSERT INTO clock_seen (only_row, seen_ms) VALUES (1, :ms)"
                        + " ON CONFLICT (only_row) DO UPDATE SET seen_ms = excluded.seen_ms")
                .bind("ms", instant.toEpochMilli())
                .execute());
  }
}
