package tepidarium.light;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;

/**
 * Light events and light dose. An event opens at the first reading above the limit and closes at
 * the first reading at or below it after which light stays there for the join time. A gap closes it
 * with its end unknown. The dose is the trapezoid integral between readings, lux·h.
 */
public final class LightEvents {
  private static final double MS_PER_HOUR = 3_600_000.0;

  private LightEvents() {}

  /**
   * Finds the events of a record.
   *
   * @param light lux
   * @param limitLux readings above it are light; a reading exactly on it is dark
   */
  public static List<LightEvent> of(
      Samples light, double limitLux, Duration maxGap, Duration join) {
    List<LightEvent> events = new ArrayList<>();
    Open open = null;
    for (int i = 0; i < light.size(); i++) {
      long at = light.atMs(i);
      boolean lit = light.value(i) > limitLux;
      if (open != null && !light.joined(i, maxGap.toMillis())) {
        events.add(open.unfinished());
        open = null;
      }
      if (open == null) {
        open = lit ? new Open(at, light.value(i)) : null;
      } else {
        open.add(light, i, lit);
        LightEvent finished = open.finishedAfter(at, join.toMillis());
        if (finished != null) {
          events.add(finished);
          open = null;
        }
      }
    }
    if (open != null) {
      events.add(open.unfinished());
    }
    return events;
  }

  /** An event that is still going on, or dark for less than the join time. */
  private static final class Open {
    private final long startMs;
    private long darkMs = -1;
    private long lastMs;
    private double peak;
    private double dose;
    private double doseAtDark;

    Open(long startMs, double lux) {
      this.startMs = startMs;
      this.lastMs = startMs;
      this.peak = lux;
    }

    void add(Samples light, int i, boolean lit) {
      long length = light.atMs(i) - light.atMs(i - 1);
      dose += (light.value(i) + light.value(i - 1)) / 2 * length;
      lastMs = light.atMs(i);
      peak = Math.max(peak, light.value(i));
      if (lit) {
        darkMs = -1;
      } else if (darkMs < 0) {
        darkMs = lastMs;
        doseAtDark = dose;
      }
    }

    @Nullable LightEvent finishedAfter(long nowMs, long joinMs) {
      if (darkMs < 0 || nowMs - darkMs < joinMs) {
        return null;
      }
      Instant end = Instant.ofEpochMilli(darkMs);
      return new LightEvent(
          Instant.ofEpochMilli(startMs), end, end, peak, doseAtDark / MS_PER_HOUR);
    }

    LightEvent unfinished() {
      return new LightEvent(
          Instant.ofEpochMilli(startMs),
          null,
          Instant.ofEpochMilli(lastMs),
          peak,
          dose / MS_PER_HOUR);
    }
  }
}
