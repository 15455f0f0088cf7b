package tepidarium.rollup;

import java.util.List;
import tepidarium.container.Container;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.heat.Warmth;
import tepidarium.history.History;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * The hours of one container over a span, read once, from which the heat of any part of it follows.
 * Readings are asked for only at the ends of a part that are no full hours, and where base or
 * ceiling are such that the hours do not tell exactly.
 */
public final class ContainerHours {
  private final Container container;
  private final Span span;
  private final List<RollupRow> rows;
  private final History history;
  private final HeatRule own;

  ContainerHours(Container container, Span span, List<RollupRow> rows, History history) {
    this.container = container;
    this.span = span;
    this.rows = List.copyOf(rows);
    this.history = history;
    this.own = HeatRule.of(container.settings());
  }

  List<RollupRow> rows() {
    return rows;
  }

  /** The heat of a part; what of it lies outside the hours that were read is a gap. */
  public HeatSum heat(Span part, HeatRule rule) {
    Span seen = part.within(span);
    HeatSum sum = gap(part.length().minus(seen.length()).toMillis());
    long from = -1;
    for (int i = 0; i < rows.size() && rows.get(i).fromMs() < seen.toMs(); i++) {
      long start = rows.get(i).fromMs();
      long end = end(i);
      if (end > seen.fromMs()) {
        boolean whole = start >= seen.fromMs() && end <= seen.toMs();
        if (whole && isTold(rule)) {
          sum = sum.plus(read(from, start, rule)).plus(told(rows.get(i), rule));
          from = -1;
        } else if (from < 0) {
          from = Math.max(start, seen.fromMs());
        }
      }
    }
    return sum.plus(read(from, seen.toMs(), rule));
  }

  private static HeatSum gap(long ms) {
    return new HeatSum(0, 0, 0, ms);
  }

  private long end(int row) {
    return row + 1 < rows.size() ? rows.get(row + 1).fromMs() : span.toMs();
  }

  /** From the readings themselves; nothing where no stretch has begun. */
  private HeatSum read(long fromMs, long toMs, HeatRule rule) {
    if (fromMs < 0 || fromMs >= toMs) {
      return HeatSum.ZERO;
    }
    Span stretch = Span.ofMillis(fromMs, toMs);
    Samples temperature = history.samples(container.id(), Quantity.TEMPERATURE, stretch);
    return DegreeHours.of(temperature, stretch, rule, history.maxGap());
  }

  private boolean isTold(HeatRule rule) {
    return rule.equals(own) || Warmth.isExact(rule);
  }

  private HeatSum told(RollupRow row, HeatRule rule) {
    return rule.equals(own) ? row.heat() : row.warmth().heat(rule);
  }

  /**
   * Laid out for the heat bench.
   *
   * @param rule the same for all that are compared
   * @param errorC by how much the sensors may be off, ±°C
   */
  public HeatHours bench(LocalHours hours, HeatRule rule, double errorC) {
    HeatHours columns = new HeatHours(hours);
    for (int i = 0; i < rows.size(); i++) {
      RollupRow row = rows.get(i);
      if (end(i) - row.fromMs() == HourlyRollups.HOUR_MS) {
        HeatSum heat = isTold(rule) ? told(row, rule) : read(row.fromMs(), end(i), rule);
        double outsideMs = row.cold().outsideMs() + row.hot().outsideMs();
        columns.add(
            row.fromMs(),
            heat,
            outsideMs,
            row.course(Quantity.TEMPERATURE),
            row.warmth().sensorError(rule, errorC));
      }
    }
    return columns;
  }
}
