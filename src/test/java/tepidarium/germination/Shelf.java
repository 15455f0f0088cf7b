package tepidarium.germination;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import tepidarium.container.ContainerId;
import tepidarium.heat.TemperatureHistogram;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Containers at temperatures that are known, with gaps, and sowings in them. */
public final class Shelf implements ContainerTemperatures {
  static final Instant SOWN = Instant.parse("2026-03-01T06:00:00Z");
  static final double HIGH_LIMIT_C = 33;

  private final Map<ContainerId, Double> temperaturesC = new HashMap<>();
  private final Map<ContainerId, Span> gaps = new HashMap<>();
  private double errorC;

  /** In what the seeds are all alike, and in what not. */
  record Truth(double baseC, double medianHeat, double sigma, double finalFraction) {
    /** Hours until a seed germinates; infinite for one that never does. */
    double hours(Random random, double temperatureC) {
      double needs = medianHeat * Math.exp(sigma * random.nextGaussian());
      boolean ever = random.nextDouble() < finalFraction;
      return ever && temperatureC > baseC
          ? needs / (temperatureC - baseC)
          : Double.POSITIVE_INFINITY;
    }
  }

  static Instant day(double day) {
    return SOWN.plus(Freshness.days(day));
  }

  public ContainerId container(String id, double temperatureC) {
    ContainerId container = new ContainerId(id);
    temperaturesC.put(container, temperatureC);
    return container;
  }

  void gap(ContainerId container, Instant from, Instant to) {
    gaps.put(container, new Span(from, to));
  }

  void sensorsMayBeOffBy(double offC) {
    errorC = offC;
  }

  @Override
  public TemperatureHistogram histogram(ContainerId container, Span span) {
    Double temperature = temperaturesC.get(container);
    if (temperature == null) {
      return TemperatureHistogram.unknown(span.length().toMillis());
    }
    long gap = gaps.containsKey(container) ? overlap(gaps.get(container), span) : 0;
    Span covered = Span.ofMillis(span.fromMs(), span.toMs() - gap);
    Samples.Builder steady = new Samples.Builder(2);
    steady.add(covered.fromMs(), temperature);
    if (covered.fromMs() < covered.toMs()) {
      steady.add(covered.toMs(), temperature);
    }
    return TemperatureHistogram.sum(
        List.of(
            TemperatureHistogram.of(steady.build(), covered, covered.length()),
            TemperatureHistogram.unknown(gap)));
  }

  private static long overlap(Span gap, Span span) {
    return gap.within(span).length().toMillis();
  }

  @Override
  public double temperatureErrorC(ContainerId container, Span span) {
    return errorC;
  }

  @Override
  public double highLimitC(ContainerId container) {
    return HIGH_LIMIT_C;
  }

  public static SowingTimeline timeline(List<Entry> entries) {
    return SowingTimeline.of(entries);
  }

  public static Entry entry(long sowing, double day, Act act) {
    Instant at = day(day);
    UUID id = new UUID(sowing, at.toEpochMilli() * 1_000 + act.hashCode() % 1_000);
    return new Entry(id, sowing, at, act, at, null, null, null, null, null);
  }

  /** A sowing with a group of so many seeds in each container, looked at every so many days. */
  SowingTimeline sow(
      long sowing, Random random, Truth truth, int seeds, int every, int last, double... degrees) {
    List<Act.Part> parts = new ArrayList<>();
    Map<Act.Part, int[]> found = new HashMap<>();
    for (int i = 0; i < degrees.length; i++) {
      ContainerId bag = container("bag-" + sowing + "-" + (i + 1), degrees[i]);
      Act.Part part = new Act.Part(new GroupId(sowing, i + 1), bag, seeds);
      parts.add(part);
      int[] at = new int[last / every + 1];
      for (int seed = 0; seed < seeds; seed++) {
        double check = Math.ceil(truth.hours(random, degrees[i]) / 24 / every);
        if (check < at.length) {
          at[(int) check]++;
        }
      }
      found.put(part, at);
    }
    List<Entry> entries = new ArrayList<>();
    entries.add(entry(sowing, 0, new Act.Sown(1, null, parts)));
    for (int check = 1; check * every <= last; check++) {
      for (Act.Part part : parts) {
        int up = found.get(part)[check];
        boolean any = up > 0 || left(found.get(part), seeds, check) > 0;
        if (any) {
          Act act = new Act.Checked(part.group(), up, List.of(), 0, List.of());
          entries.add(entry(sowing, check * every, act));
        }
      }
    }
    return SowingTimeline.of(entries);
  }

  private static int left(int[] found, int seeds, int check) {
    int left = seeds;
    for (int i = 0; i < check; i++) {
      left -= found[i];
    }
    return left;
  }

  HeatCounts counts(SowingTimeline... timelines) {
    return new HeatCounts(List.of(timelines), new HeatPath(this, null), null);
  }
}
