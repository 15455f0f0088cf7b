package tepidarium.importing;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;

/**
 * Converts local times to instants. In the hour that is repeated when the clocks go back, the order
 * of the sensor's rows decides: a time that goes back belongs to the second pass of the hour. If
 * both passes are possible, the one that fits the interval of the rows is taken. Not thread-safe.
 */
final class LocalTimes {
  /** Result for a local time that does not exist because the clocks went forward. */
  static final long SKIPPED = Long.MIN_VALUE;

  private static final long DAY_MS = 86_400_000;

  /** The last instant of one sensor, in the order of the file, and the interval of its rows. */
  static final class Previous {
    private long ms;

    /** The shortest step between two rows; 0 if it is not known yet. */
    private long intervalMs;

    private boolean known;

    void set(long instantMs) {
      long step = known ? Math.abs(instantMs - ms) : 0;
      if (step > 0 && (intervalMs == 0 || step < intervalMs)) {
        intervalMs = step;
      }
      ms = instantMs;
      known = true;
    }
  }

  private final ZoneRules rules;
  private final boolean newestFirst;
  private long cachedDay = Long.MIN_VALUE;
  private long cachedOffsetMs;
  private boolean cachedIsPlain;
  private long repeated;

  LocalTimes(ZoneId zone, boolean newestFirst) {
    this.rules = zone.getRules();
    this.newestFirst = newestFirst;
  }

  /** Number of times that were in a repeated hour. */
  long repeated() {
    return repeated;
  }

  /** The instant of a local time, both in milliseconds since 1970; {@link #SKIPPED} if none. */
  long instant(long localMs, Previous previous) {
    long day = Math.floorDiv(localMs, DAY_MS);
    if (day != cachedDay) {
      cache(day);
    }
    return cachedIsPlain ? localMs - cachedOffsetMs : nearTransition(localMs, previous);
  }

  private void cache(long day) {
    cachedDay = day;
    Instant start = Instant.ofEpochMilli((day - 1) * DAY_MS);
    cachedOffsetMs = rules.getOffset(start).getTotalSeconds() * 1000L;
    ZoneOffsetTransition next = rules.nextTransition(start);
    cachedIsPlain = next == null || next.toEpochSecond() * 1000 > (day + 2) * DAY_MS;
  }

  private long nearTransition(long localMs, Previous previous) {
    LocalDateTime local =
        LocalDateTime.ofEpochSecond(
            Math.floorDiv(localMs, 1000),
            (int) Math.floorMod(localMs, 1000L) * 1_000_000,
            ZoneOffset.UTC);
    ZoneOffsetTransition transition = rules.getTransition(local);
    if (transition == null) {
      return localMs - rules.getOffset(local).getTotalSeconds() * 1000L;
    }
    if (transition.isGap()) {
      return SKIPPED;
    }
    repeated++;
    long first = localMs - transition.getOffsetBefore().getTotalSeconds() * 1000L;
    long second = localMs - transition.getOffsetAfter().getTotalSeconds() * 1000L;
    return newestFirst ? choose(second, first, previous) : choose(first, second, previous);
  }

  /**
   * Returns the pass that the file reaches first, unless the previous row is beyond it or the other
   * pass fits the interval of the rows better.
   */
  private long choose(long usual, long other, Previous previous) {
    if (!previous.known) {
      return usual;
    }
    long usualStep = newestFirst ? previous.ms - usual : usual - previous.ms;
    if (usualStep < 0) {
      return other;
    }
    long otherStep = usualStep + Math.abs(other - usual);
    boolean otherFits =
        previous.intervalMs > 0
            && Math.abs(otherStep - previous.intervalMs)
                < Math.abs(usualStep - previous.intervalMs);
    return otherFits ? other : usual;
  }
}
