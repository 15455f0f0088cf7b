package tepidarium.ledger;

import java.util.List;
import tepidarium.container.Container;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.LocalHours;
import tepidarium.history.History;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * The hours of one container over a span, read once, from which the heat of any part of it follows
 * by any base and ceiling. An hour in and around which every reading lies above the base and below
 * the ceiling needs no reading again: another base only shifts its heat by so much an hour. The
 * same holds where all of it lies below the base, or above the ceiling. Readings are asked for only
 * where neither is so, and at the ends of a part that are no full hours.
 */
public final class ContainerHours {
  private final Container container;
  private final Span span;
  private final List<LedgerRow> rows;
  private final History history;
  private final HeatRule own;

  ContainerHours(Container container, Span span, List<LedgerRow> rows, History history) {
    this.container = container;
    this.span = span;
    this.rows = List.copyOf(rows);
    this.history = history;
    this.own = LedgerRow.rule(container.settings());
  }

  /**
   * The lowest and the highest of some readings, °C; NaN, which compares to nothing, if unknown.
   */
  private record Range(double low, double high) {
    static final Range UNKNOWN = new Range(Double.NaN, Double.NaN);

    boolean within(HeatRule rule) {
      Double ceiling = rule.ceilingC();
      return low >= rule.baseC() && (ceiling == null || high <= ceiling);
    }
  }

  List<LedgerRow> rows() {
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
        if (whole && known(i, rule)) {
          sum = sum.plus(read(from, start, rule)).plus(told(i, rule));
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

  private boolean known(int row, HeatRule rule) {
    if (rule.equals(own) || rows.get(row).heat().coveredMs() == 0) {
      return true;
    }
    Range range = around(row);
    Double ceiling = rule.ceilingC();
    return (range.within(own) && range.within(rule))
        || range.high() <= rule.baseC()
        || (ceiling != null && range.low() >= ceiling);
  }

  /** The heat of an hour of which it is known. */
  private HeatSum told(int row, HeatRule rule) {
    HeatSum heat = rows.get(row).heat();
    if (rule.equals(own) || heat.coveredMs() == 0) {
      return heat;
    }
    Range range = around(row);
    Double ceiling = rule.ceilingC();
    if (range.high() <= rule.baseC()) {
      return new HeatSum(0, 0, heat.coveredMs(), heat.gapMs());
    }
    double degreeHours =
        ceiling != null && range.low() >= ceiling
            ? rule.gain(ceiling) * heat.coveredHours()
            : heat.degreeHours() + (own.baseC() - rule.baseC()) * heat.coveredHours();
    return new HeatSum(degreeHours, heat.coveredHours(), heat.coveredMs(), heat.gapMs());
  }

  /**
   * All readings that a line through the hour can reach: its own and those up to the longest gap
   * away. Not known near the ends of the span, beyond which nothing was read.
   */
  private Range around(int row) {
    long maxGapMs = history.maxGap().toMillis();
    long from = rows.get(row).fromMs() - maxGapMs;
    long to = end(row) + maxGapMs;
    if (from < rows.get(0).fromMs() || to > span.toMs()) {
      return Range.UNKNOWN;
    }
    int first = row;
    while (first > 0 && end(first - 1) > from) {
      first--;
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = first; i < rows.size() && rows.get(i).fromMs() <= to; i++) {
      Summary summary = rows.get(i).summary(Quantity.TEMPERATURE);
      if (summary != null) {
        low = Math.min(low, summary.min());
        high = Math.max(high, summary.max());
      }
    }
    return low <= high ? new Range(low, high) : Range.UNKNOWN;
  }

  /**
   * Laid out for the heat bench.
   *
   * @param rule the same for all that are compared
   */
  public HeatHours bench(LocalHours hours, HeatRule rule) {
    HeatHours columns = new HeatHours(hours);
    for (int i = 0; i < rows.size(); i++) {
      LedgerRow row = rows.get(i);
      Summary summary = row.summary(Quantity.TEMPERATURE);
      if (summary != null && end(i) - row.fromMs() == Ledger.HOUR_MS) {
        boolean known = known(i, rule);
        HeatSum heat = known ? told(i, rule) : read(row.fromMs(), end(i), rule);
        double outsideMs = row.cold().outsideMs() + row.hot().outsideMs();
        columns.add(row.fromMs(), heat, outsideMs, summary.mean(), summary.min(), summary.max());
      }
    }
    return columns;
  }
}
