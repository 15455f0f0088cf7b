package tepidarium.reading;

import java.util.Arrays;
import java.util.Collection;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * A series of one quantity: values at strictly ascending instants, in two arrays. Immutable and
 * thread-safe. Between two neighbours the value is interpolated linearly, unless they are further
 * apart than the caller's longest gap, or readings between them were left out. A series from which
 * readings were left out also holds the series with them.
 */
public final class Samples {
  public static final Samples EMPTY = new Samples(new long[0], new double[0], new long[0], null);

  private final long[] atMs;
  private final double[] values;

  /** Instants of samples that are not joined with the one before. Ascending. */
  private final long[] breaks;

  /** The series with the readings that were left out; null if none was. */
  private final @Nullable Samples all;

  private Samples(long[] atMs, double[] values, long[] breaks, @Nullable Samples all) {
    this.atMs = atMs;
    this.values = values;
    this.breaks = breaks;
    this.all = all;
  }

  private Samples all() {
    return all == null ? this : all;
  }

  private Samples withAll(Samples whole) {
    return new Samples(atMs, values, breaks, whole);
  }

  /**
   * Samples out of two arrays of equal length.
   *
   * @param atMs epoch milliseconds, strictly ascending
   * @throws IllegalArgumentException when the arrays differ in length or the instants do not ascend
   */
  public static Samples of(long[] atMs, double[] values) {
    if (atMs.length != values.length) {
      throw new IllegalArgumentException("as many values as instants are needed");
    }
    for (int i = 1; i < atMs.length; i++) {
      if (atMs[i] <= atMs[i - 1]) {
        throw new IllegalArgumentException("instants must ascend, at index " + i);
      }
    }
    return new Samples(atMs.clone(), values.clone(), EMPTY.breaks, null);
  }

  public int size() {
    return atMs.length;
  }

  public boolean isEmpty() {
    return atMs.length == 0;
  }

  public long atMs(int index) {
    return atMs[index];
  }

  public double value(int index) {
    return values[index];
  }

  public long firstMs() {
    return atMs[0];
  }

  public long lastMs() {
    return atMs[atMs.length - 1];
  }

  /**
   * Whether a straight line joins a sample with the one before it: they are at most {@code
   * maxGapMs} apart, and no reading between them was left out.
   */
  public boolean joined(int index, long maxGapMs) {
    return index > 0 && atMs[index] - atMs[index - 1] <= maxGapMs && !isBroken(index);
  }

  private boolean isBroken(int index) {
    return breaks.length > 0 && Arrays.binarySearch(breaks, atMs[index]) >= 0;
  }

  /** Selects samples. */
  public interface Condition {
    boolean holds(long instantMs, double value);
  }

  /** Leaves out the samples that meet the condition. What is left out makes a gap. */
  public Samples without(Condition condition) {
    Builder kept = null;
    boolean leftOut = false;
    for (int i = 0; i < size(); i++) {
      boolean out = condition.holds(atMs[i], values[i]);
      if (out && kept == null) {
        kept = new Builder(size());
        kept.addAll(between(Long.MIN_VALUE, atMs[i]));
      }
      if (kept != null && !out) {
        kept.add(atMs[i], values[i], leftOut || isBroken(i));
      }
      leftOut = out;
    }
    return kept == null ? this : kept.build().withAll(all());
  }

  /** Whether readings were left out, see {@link #without}. */
  public boolean hasLeftOut() {
    return all != null;
  }

  /**
   * The time of the span that the series would cover with the readings that were left out, and that
   * it does not cover without them, ms.
   */
  public long leftOutMs(Span span, long maxGapMs) {
    return all == null ? 0 : Math.max(0, all.coveredMs(span, maxGapMs) - coveredMs(span, maxGapMs));
  }

  private long coveredMs(Span span, long maxGapMs) {
    long[] gapMs = new long[1];
    walk(
        span,
        maxGapMs,
        new SegmentVisitor() {
          @Override
          public void line(long startMs, double startValue, long endMs, double endValue) {
            // Covered time is the rest of the span.
          }

          @Override
          public void gap(long startMs, long endMs) {
            gapMs[0] += endMs - startMs;
          }
        });
    return span.toMs() - span.fromMs() - gapMs[0];
  }

  /** The index of the first sample at or after the instant; the size where there is none. */
  public int indexFrom(long instantMs) {
    int found = Arrays.binarySearch(atMs, instantMs);
    return found >= 0 ? found : -found - 1;
  }

  /** Returns the series with an offset added to each value, as for a calibration. */
  public Samples plus(double offset) {
    return offset == 0 ? this : mapped((instantMs, value) -> value + offset);
  }

  /** A new value for the value at an instant. */
  public interface Change {
    double apply(long instantMs, double value);
  }

  /** Returns the series with each value changed, at the same instants. */
  public Samples mapped(Change change) {
    double[] changed = new double[values.length];
    for (int i = 0; i < changed.length; i++) {
      changed[i] = change.apply(atMs[i], values[i]);
    }
    return new Samples(atMs, changed, breaks, all == null ? null : all.mapped(change));
  }

  /**
   * The samples from {@code fromMs} to {@code toMs}, both included, and the nearest one on either
   * side, so that the straight lines across both edges are known. Without the readings left out.
   */
  public Samples around(long fromMs, long toMs) {
    int start = Math.max(0, indexFrom(fromMs) - 1);
    int end = Math.min(size(), indexFrom(toMs) + 1);
    if (start == 0 && end == size()) {
      return this;
    }
    return new Samples(
        Arrays.copyOfRange(atMs, start, end), Arrays.copyOfRange(values, start, end), breaks, null);
  }

  /**
   * The samples from {@code fromMs}, included, to {@code untilMs}, excluded. Without the readings
   * left out.
   */
  public Samples between(long fromMs, long untilMs) {
    int start = indexFrom(fromMs);
    int end = Math.max(start, indexFrom(untilMs));
    return new Samples(
        Arrays.copyOfRange(atMs, start, end), Arrays.copyOfRange(values, start, end), breaks, null);
  }

  /**
   * These samples, and where two neighbours are not joined (or none stands before or after), the
   * other's samples strictly between them.
   */
  public Samples gapsFilledFrom(Samples other, long maxGapMs) {
    Samples filled = filledFrom(other, maxGapMs);
    return all == null && other.all == null
        ? filled
        : filled.withAll(all().filledFrom(other.all(), maxGapMs));
  }

  private Samples filledFrom(Samples other, long maxGapMs) {
    if (isEmpty() || other.isEmpty()) {
      return isEmpty() ? other : this;
    }
    Builder merged = new Builder(size() + 16);
    merged.addAll(other.between(Long.MIN_VALUE, firstMs()));
    merged.add(atMs[0], values[0]);
    for (int i = 1; i < atMs.length; i++) {
      Samples filling = joined(i, maxGapMs) ? EMPTY : other.between(atMs[i - 1] + 1, atMs[i]);
      merged.addAll(filling);
      merged.add(atMs[i], values[i], filling.isEmpty() && isBroken(i));
    }
    merged.addAll(other.between(lastMs() + 1, Long.MAX_VALUE));
    return merged.build();
  }

  /**
   * Walks the span from its start to its end. Neighbours at most {@code maxGapMs} apart give a
   * straight line, clipped to the span by interpolation; everything else is a gap. Walking two
   * adjoining spans gives the same result as walking their union.
   */
  public void walk(Span span, long maxGapMs, SegmentVisitor visitor) {
    long from = span.fromMs();
    long to = span.toMs();
    if (from == to) {
      return;
    }
    if (isEmpty() || lastMs() <= from || firstMs() >= to) {
      visitor.gap(from, to);
      return;
    }
    if (firstMs() > from) {
      visitor.gap(from, firstMs());
    }
    int last = Math.min(size() - 1, indexFrom(to));
    for (int i = Math.max(1, indexFrom(from + 1)); i <= last; i++) {
      piece(i, from, to, maxGapMs, visitor);
    }
    if (lastMs() < to) {
      visitor.gap(lastMs(), to);
    }
  }

  private void piece(int end, long from, long to, long maxGapMs, SegmentVisitor visitor) {
    long t0 = atMs[end - 1];
    long t1 = atMs[end];
    long start = Math.max(t0, from);
    long stop = Math.min(t1, to);
    if (!joined(end, maxGapMs)) {
      visitor.gap(start, stop);
    } else {
      double startValue = start == t0 ? values[end - 1] : along(end, start);
      double stopValue = stop == t1 ? values[end] : along(end, stop);
      visitor.line(start, startValue, stop, stopValue);
    }
  }

  /** Interpolates at an instant on the straight line that ends at a sample. */
  private double along(int end, long instantMs) {
    double share = (double) (instantMs - atMs[end - 1]) / (atMs[end] - atMs[end - 1]);
    return values[end - 1] + share * (values[end] - values[end - 1]);
  }

  /** The value at an instant, on the straight line between its neighbours; empty within a gap. */
  public OptionalDouble valueAt(long instantMs, long maxGapMs) {
    int index = indexFrom(instantMs);
    if (index < size() && atMs[index] == instantMs) {
      return OptionalDouble.of(values[index]);
    }
    if (index == size() || !joined(index, maxGapMs)) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(along(index, instantMs));
  }

  /** The instants at which any of several quantities has a sample, ms, ascending. */
  public static long[] instants(Collection<Samples> quantities) {
    return quantities.stream()
        .flatMapToLong(one -> Arrays.stream(one.atMs, 0, one.size()))
        .sorted()
        .distinct()
        .toArray();
  }

  /** Builds a series from samples in ascending order. Not thread-safe. */
  public static final class Builder {
    private long[] atMs;
    private double[] values;
    private int size;
    private long[] breaks = EMPTY.breaks;
    private int broken;

    public Builder(int expected) {
      atMs = new long[Math.max(16, expected)];
      values = new double[atMs.length];
    }

    /**
     * Adds one sample.
     *
     * @throws IllegalArgumentException when the instant is not after the last one added
     */
    public void add(long instantMs, double value) {
      if (size > 0 && instantMs <= atMs[size - 1]) {
        throw new IllegalArgumentException("instants must ascend, at " + instantMs);
      }
      if (size == atMs.length) {
        atMs = Arrays.copyOf(atMs, size * 2);
        values = Arrays.copyOf(values, size * 2);
      }
      atMs[size] = instantMs;
      values[size++] = value;
    }

    private void add(long instantMs, double value, boolean afterBreak) {
      add(instantMs, value);
      if (afterBreak) {
        if (broken == breaks.length) {
          breaks = Arrays.copyOf(breaks, Math.max(16, broken * 2));
        }
        breaks[broken++] = instantMs;
      }
    }

    public void addAll(Samples samples) {
      for (int i = 0; i < samples.size(); i++) {
        add(samples.atMs(i), samples.value(i), samples.isBroken(i));
      }
    }

    public Samples build() {
      return new Samples(
          Arrays.copyOf(atMs, size),
          Arrays.copyOf(values, size),
          Arrays.copyOf(breaks, broken),
          null);
    }
  }
}
