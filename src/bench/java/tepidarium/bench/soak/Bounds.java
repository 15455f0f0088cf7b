package tepidarium.bench.soak;

import java.util.ArrayList;
import java.util.List;

/** The bounds that every row must keep. They are printed before the run. */
final class Bounds {
  private static final long MB = 1_000_000;
  private static final long HEAP_BYTES = 48 * MB;
  private static final long HEAP_GROWTH_BYTES = 6 * MB;
  private static final long BYTES_PER_READING = 34;
  private static final long BYTES_PER_CONTAINER_HOUR = 800;
  private static final long RECORDS_BYTES = 12 * MB;
  private static final long RECORDS_BYTES_PER_DAY = 24_000;
  private static final long BROKER_BYTES = 64 * MB;
  private static final long FILE_BYTES = 8 * MB;
  private static final int BACKUPS = 14;
  private static final long LOG_LINES_PER_DAY = 20;
  private static final long LOG_LINES = 100;
  private static final int ALERTS = 4 * Shelf.SENSORS;

  /** Four notifiers, 24 h of notices each, at most one every 10 min. */
  private static final long WAITING = 4 * 24 * 6;

  private final Plan plan;

  Bounds(Plan plan) {
    this.plan = plan;
  }

  String words() {
    return """
    - heap after a collection, with the driver: at most %d MB, and at most %d MB more than in the second row
    - readings: %d bytes for each reading of the %d days that are kept, plus %d MB
    - hourly sums: %d bytes for each container and hour, plus %d MB
    - records: %d MB plus %d kB a day; broker: %d MB
    - backups: at most %d, and no larger than the records each
    - log: at most %d lines of warnings a day, plus %d, no error
    - alerts open: at most %d; notices waiting: at most %d
    - sent = stored + repeated + rejected; in the store = sent once and not older than the oldest
    - every local day has its 23, 24 or 25 hours of heat"""
        .formatted(
            HEAP_BYTES / MB,
            HEAP_GROWTH_BYTES / MB,
            BYTES_PER_READING,
            plan.keepRawDays(),
            FILE_BYTES / MB,
            BYTES_PER_CONTAINER_HOUR,
            FILE_BYTES / MB,
            RECORDS_BYTES / MB,
            RECORDS_BYTES_PER_DAY / 1_000,
            BROKER_BYTES / MB,
            BACKUPS,
            LOG_LINES_PER_DAY,
            LOG_LINES,
            ALERTS,
            WAITING);
  }

  /** What a row breaks, in words; empty if it keeps every bound. */
  List<String> broken(State state, List<State> before) {
    List<String> broken = new ArrayList<>();
    long heap = HEAP_BYTES;
    if (before.size() > 1) {
      heap = Math.min(heap, before.get(1).heapBytes() + HEAP_GROWTH_BYTES);
    }
    check(broken, state, "heap", state.heapBytes(), heap);
    long keptDays = Math.min(state.day(), plan.keepRawDays() + 3);
    long readings = keptDays * 24 * plan.readingsPerStep() * Shelf.SENSORS;
    check(
        broken,
        state,
        "readings",
        state.readingsBytes(),
        readings * BYTES_PER_READING + FILE_BYTES);
    long hours = 24L * state.day() * Shelf.SENSORS;
    check(
        broken,
        state,
        "hourly sums",
        state.rollupBytes(),
        hours * BYTES_PER_CONTAINER_HOUR + FILE_BYTES);
    long records = RECORDS_BYTES + state.day() * RECORDS_BYTES_PER_DAY;
    check(broken, state, "records", state.recordsBytes(), records);
    check(broken, state, "broker", state.brokerBytes(), BROKER_BYTES);
    check(broken, state, "backups", state.backups(), BACKUPS);
    check(broken, state, "size of backups", state.backupBytes(), BACKUPS * records);
    long lines = LOG_LINES_PER_DAY * state.day() + LOG_LINES;
    check(broken, state, "log lines", state.logLines(), lines);
    check(broken, state, "alerts open", state.alerts(), ALERTS);
    check(broken, state, "notices waiting", state.waiting(), WAITING);
    long settled = state.stored() + state.repeated() + state.rejected();
    if (state.sent() != settled) {
      broken.add(state.date() + ": sent " + state.sent() + ", but settled " + settled);
    }
    if (state.rows() != state.expectedRows()) {
      broken.add(state.date() + ": " + state.rows() + " rows, expected " + state.expectedRows());
    }
    return broken;
  }

  private static void check(List<String> broken, State state, String what, long value, long most) {
    if (value > most) {
      broken.add("%s: %s %,d, more than %,d".formatted(state.date(), what, value, most));
    }
  }
}
