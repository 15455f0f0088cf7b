package tepidarium.heat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;
import tepidarium.stats.Linear;

/**
 * Measures time inside and outside one limit, and finds excursions. Values are linear between
 * readings; an excursion starts and ends where the line crosses the limit. Two excursions that are
 * at most {@code join} apart are merged, because noise at the limit would otherwise produce many;
 * the time between them is not counted as outside. A gap ends an excursion without a known end.
 */
public final class TimeInBand {
  private TimeInBand() {}

  /** Measures a span against one limit. */
  public static BandTime of(
      Samples samples, Span span, Limit limit, Duration maxGap, Duration join) {
    Follower follower = new Follower(limit, join.toMillis());
    samples.walk(span, maxGap.toMillis(), follower);
    return follower.result();
  }

  private static final class Follower implements SegmentVisitor {
    private final Limit limit;
    private final long joinMs;
    private final List<Excursion> done = new ArrayList<>();
    private @Nullable Open open;
    private long coveredMs;
    private long gapMs;
    private double outsideMs;

    Follower(Limit limit, long joinMs) {
      this.limit = limit;
      this.joinMs = joinMs;
    }

    @Override
    public void line(long startMs, double startValue, long endMs, double endValue) {
      long length = endMs - startMs;
      coveredMs += length;
      boolean startsOutside = limit.outside(startValue);
      boolean endsOutside = limit.outside(endValue);
      if (!startsOutside && !endsOutside) {
        closeIfJoined(endMs);
        return;
      }
      double crossing = Linear.crossing(startValue, endValue, limit.value());
      double enters = startsOutside ? 0 : crossing;
      double leaves = endsOutside ? 1 : crossing;
      outsideMs += (leaves - enters) * length;
      closeIfJoined(startMs + Math.round(enters * length));
      Open current = open;
      if (current == null) {
        current = new Open(startMs + Math.round(enters * length));
        open = current;
      }
      current.add(startMs, startValue, endMs, endValue, (leaves - enters) * length);
      current.lastMs = startMs + Math.round(leaves * length);
      current.endMs = endsOutside ? -1 : current.lastMs;
    }

    @Override
    public void gap(long startMs, long endMs) {
      gapMs += endMs - startMs;
      close();
    }

    private void closeIfJoined(long nowMs) {
      if (open != null && open.endMs >= 0 && nowMs - open.endMs > joinMs) {
        close();
      }
    }

    private void close() {
      if (open != null) {
        done.add(open.finish());
        open = null;
      }
    }

    BandTime result() {
      close();
      return new BandTime(coveredMs, gapMs, outsideMs, done);
    }

    /**
     * An excursion that has not been closed yet; {@code endMs} is −1 while the value is outside.
     */
    private final class Open {
      private final long startMs;
      private long endMs = -1;
      private long lastMs;
      private double outside;
      private double beyond;
      private double worst = Double.NaN;
      private long worstMs;

      Open(long startMs) {
        this.startMs = startMs;
      }

      void add(long t0, double v0, long t1, double v1, double lengthOutside) {
        outside += lengthOutside;
        double mean =
            limit.side() == Limit.Side.LOW
                ? Linear.meanBelow(v0, v1, limit.value())
                : Linear.meanAbove(v0, v1, limit.value());
        beyond += mean * (t1 - t0);
        consider(t0, v0);
        consider(t1, v1);
      }

      private void consider(long atMs, double value) {
        if (limit.outside(value) && (Double.isNaN(worst) || limit.worse(value, worst))) {
          worst = value;
          worstMs = atMs;
        }
      }

      Excursion finish() {
        return new Excursion(
            Instant.ofEpochMilli(startMs),
            endMs < 0 ? null : Instant.ofEpochMilli(endMs),
            Instant.ofEpochMilli(lastMs),
            outside / HeatSum.MS_PER_HOUR,
            worst,
            Instant.ofEpochMilli(worstMs),
            beyond / HeatSum.MS_PER_HOUR);
      }
    }
  }
}
