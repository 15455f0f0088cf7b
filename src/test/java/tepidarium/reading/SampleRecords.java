package tepidarium.reading;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/** Short ways to write down records for tests. All of them count from {@link #START}. */
public final class SampleRecords {
  public static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  public static final Duration HALF_HOUR = Duration.ofMinutes(30);

  private SampleRecords() {}

  /** One step of time and the value after it. */
  public record Step(long ms, double value) {}

  /** Minute, value, minute, value, and so on. */
  public static Samples minutes(double... pairs) {
    Samples.Builder builder = new Samples.Builder(pairs.length / 2);
    for (int i = 0; i < pairs.length; i += 2) {
      builder.add(minute(pairs[i]), pairs[i + 1]);
    }
    return builder.build();
  }

  /** Values at times of one unit; {@code unitMs} is its length. */
  public static Samples of(double[] times, double[] values, double unitMs) {
    long[] atMs = new long[times.length];
    for (int i = 0; i < times.length; i++) {
      atMs[i] = START.toEpochMilli() + Math.round(times[i] * unitMs);
    }
    return Samples.of(atMs, values);
  }

  static Samples ofSteps(List<Step> steps) {
    Samples.Builder builder = new Samples.Builder(steps.size());
    long at = START.toEpochMilli();
    for (Step step : steps) {
      at += step.ms();
      builder.add(at, step.value());
    }
    return builder.build();
  }

  /** The epoch millisecond of a minute after the start. */
  public static long minute(double minute) {
    return START.toEpochMilli() + Math.round(minute * 60_000);
  }

  public static Instant instant(double minute) {
    return Instant.ofEpochMilli(minute(minute));
  }

  public static Span span(double fromMinute, double toMinute) {
    return new Span(instant(fromMinute), instant(toMinute));
  }

  /** From the first sample to the last. */
  public static Span whole(Samples samples) {
    return samples.isEmpty()
        ? new Span(START, START)
        : Span.ofMillis(samples.firstMs(), samples.lastMs());
  }

  public static Samples map(Samples samples, DoubleUnaryOperator change) {
    Samples.Builder builder = new Samples.Builder(samples.size());
    for (int i = 0; i < samples.size(); i++) {
      builder.add(samples.atMs(i), change.applyAsDouble(samples.value(i)));
    }
    return builder.build();
  }
}
