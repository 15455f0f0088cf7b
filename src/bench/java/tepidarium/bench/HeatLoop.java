package tepidarium.bench;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleSupplier;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Degree-hours over twelve weeks of one reading a minute, against a bare loop over two arrays. */
final class HeatLoop {
  private static final int READINGS = 121_000;
  private static final int ROUNDS = 200;
  private static final double BASE_C = 15;
  private static final double CEILING_C = 35;
  private static final double MS_PER_HOUR = 3_600_000;

  private final long[] atMs = new long[READINGS];
  private final double[] celsius = new double[READINGS];

  HeatLoop() {
    for (int i = 0; i < READINGS; i++) {
      atMs[i] = i * 60_000L;
      celsius[i] = 25 + 12 * Math.sin(i / 720.0);
    }
  }

  void run(Report report) {
    Samples.Builder builder = new Samples.Builder(READINGS);
    for (int i = 0; i < READINGS; i++) {
      builder.add(atMs[i], celsius[i]);
    }
    Samples samples = builder.build();
    Span span = Span.ofMillis(atMs[0], atMs[READINGS - 1]);
    HeatRule rule = new HeatRule(BASE_C, CEILING_C);
    DoubleSupplier ours =
        () -> DegreeHours.of(samples, span, rule, Duration.ofMinutes(30)).degreeHours();
    double difference = Math.abs(ours.getAsDouble() / bareLoop() - 1);
    if (difference > 1e-3) {
      throw new IllegalStateException("the two sums differ by " + difference);
    }
    List<Double> here = new ArrayList<>();
    List<Double> bare = new ArrayList<>();
    for (int i = 0; i < ROUNDS; i++) {
      here.add(millionsASecond(ours));
      bare.add(millionsASecond(this::bareLoop));
    }
    report.ratio(
        "degree-hours over 121,000 readings, exact at every crossing",
        "",
        " million readings/s",
        Stores.median(here),
        "bare loop over two arrays, clipped at the readings",
        Stores.median(bare));
  }

  /** The trapezoidal rule over clipped values: inexact where a line crosses base or ceiling. */
  private double bareLoop() {
    double sum = 0;
    for (int i = 1; i < READINGS; i++) {
      double before = Math.max(0, Math.min(celsius[i - 1], CEILING_C) - BASE_C);
      double after = Math.max(0, Math.min(celsius[i], CEILING_C) - BASE_C);
      sum += (before + after) / 2 * (atMs[i] - atMs[i - 1]);
    }
    return sum / MS_PER_HOUR;
  }

  private static double millionsASecond(DoubleSupplier sum) {
    long start = System.nanoTime();
    double result = sum.getAsDouble();
    double seconds = Wait.secondsSince(start);
    if (Double.isNaN(result)) {
      throw new IllegalStateException("no sum");
    }
    return READINGS / seconds / 1e6;
  }
}
