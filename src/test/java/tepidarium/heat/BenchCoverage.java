package tepidarium.heat;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatBench.Side;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;
import tepidarium.stats.AutocorrelatedMean.Estimate;

/**
 * Counts how often the intervals of the heat bench hold the truth, over simulated containers in one
 * room with a daily cycle and with weather. The truth is the mean over a very long record. The
 * benchmark runs the large number, a test a small one.
 */
public final class BenchCoverage {
  /** Correlation of the weather of one hour with the next: it fades within half a day. */
  public static final double USUAL = 0.88;

  /** Weather that lasts for one to two days. */
  public static final double LASTING = 0.97;

  private static final Instant START = Instant.parse("2026-03-10T00:00:00Z");
  private static final int LONG_DAYS = 4_000;
  private static final double BASE_C = 15;
  private static final double LOW_C = 29.5;

  /** By how much two containers differ in the mean, °C. */
  private static final double APART_C = 0.4;

  private final double persistence;
  private final Map<String, Double> truth = new LinkedHashMap<>();
  private final Map<String, int[]> counts = new LinkedHashMap<>();

  private BenchCoverage(double persistence) {
    this.persistence = persistence;
    figures(LONG_DAYS, new SplittableRandom(20260310))
        .forEach((name, estimate) -> truth.put(name, estimate.value()));
  }

  /** How often an interval held the truth, of those rounds that had one. */
  public record Coverage(String name, int held, int shown) {
    public double share() {
      return (double) held / shown;
    }

    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%s %.1f %%", name, 100 * share());
    }
  }

  /** Runs so many records of so many days. */
  public static List<Coverage> run(int rounds, int days, double persistence, long seed) {
    BenchCoverage all = new BenchCoverage(persistence);
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < rounds; i++) {
      all.figures(days, random.split()).forEach(all::count);
    }
    return all.counts.entrySet().stream()
        .map(e -> new Coverage(e.getKey(), e.getValue()[0], e.getValue()[1]))
        .toList();
  }

  private void count(String name, Estimate estimate) {
    Double low = estimate.low();
    Double high = estimate.high();
    if (low != null && high != null) {
      int[] count = counts.computeIfAbsent(name, any -> new int[2]);
      double value = truth.getOrDefault(name, Double.NaN);
      count[0] += low <= value && value <= high ? 1 : 0;
      count[1]++;
    }
  }

  private Map<String, Estimate> figures(int days, SplittableRandom random) {
    LocalHours hours =
        LocalHours.of(new Span(START, START.plusSeconds(days * 86_400L)), ZoneId.of("UTC"));
    double[] room = room(hours.count(), random);
    List<BenchPlace> places = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      places.add(place("box-" + i, hours, room, 30.2 + (i == 0 ? APART_C : 0), random));
    }
    HeatBench.Comparison told =
        HeatBench.compare(
            hours,
            List.of(
                new Side("a", "a", false, places.subList(0, 1)),
                new Side("b", "b", false, places.subList(1, 2)),
                new Side("mat", "mat", true, places)));
    Map<String, Estimate> figures = new LinkedHashMap<>();
    put(figures, "", told.sides().get(0).figures());
    put(figures, " difference", told.pairs().get(0).figures());
    put(figures, "spread of places", told.sides().get(2).spreadC());
    return figures;
  }

  private static void put(Map<String, Estimate> figures, String of, BenchFigures told) {
    put(figures, "heat a day" + of, told.degreeHoursPerDay());
    put(figures, "inside the band" + of, told.fractionInside());
    put(figures, "mean" + of, told.meanC());
    put(figures, "night floor" + of, told.nightFloorC());
    put(figures, "swing in a day" + of, told.dailySwingC());
  }

  private static void put(Map<String, Estimate> figures, String name, @Nullable Estimate told) {
    if (told != null) {
      figures.put(name, told);
    }
  }

  /** A shed: 18 °C, warmest at 16 o'clock by 2.5 °C, with weather of standard deviation 1 °C. */
  private double[] room(int hours, SplittableRandom random) {
    double[] room = following(hours, persistence, 1, random);
    for (int i = 0; i < hours; i++) {
      room[i] += 18 + 2.5 * Math.cos(2 * Math.PI * (i - 16) / 24);
    }
    return room;
  }

  private static double[] following(
      int hours, double persistence, double deviation, SplittableRandom random) {
    double[] values = new double[hours];
    double state = deviation * random.nextGaussian();
    double fresh = deviation * Math.sqrt(1 - persistence * persistence);
    for (int i = 0; i < hours; i++) {
      state = persistence * state + fresh * random.nextGaussian();
      values[i] = state;
    }
    return values;
  }

  /** A heated box that follows a quarter of what the room does, with draughts of its own. */
  private BenchPlace place(
      String name, LocalHours hours, double[] room, double meanC, SplittableRandom random) {
    HeatHours columns = new HeatHours(hours);
    double[] own = following(room.length, persistence, 0.2, random);
    for (int i = 0; i < room.length; i++) {
      double now = meanC + 0.25 * (room[i] - 18) + own[i];
      double reach = 0.2 + 0.05 * Math.abs(random.nextGaussian());
      HeatSum heat = new HeatSum(now - BASE_C, 1, LocalHours.HOUR_MS, 0, 0);
      double outside = Math.max(0, Math.min(1, (LOW_C - now + reach) / (2 * reach)));
      columns.add(
          hours.span().fromMs() + i * LocalHours.HOUR_MS,
          heat,
          outside * LocalHours.HOUR_MS,
          new TimeWeighted(LocalHours.HOUR_MS, now, 0, now - reach, now + reach),
          new SensorError(0, 0));
    }
    return new BenchPlace(new ContainerId(name), name, columns, List.of(), null);
  }
}
