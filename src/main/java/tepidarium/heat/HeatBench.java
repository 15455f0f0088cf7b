package tepidarium.heat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.AutocorrelatedMean;
import tepidarium.stats.AutocorrelatedMean.Estimate;
import tepidarium.stats.GroupMeans;
import tepidarium.stats.GroupMeans.Difference;
import tepidarium.stats.GroupMeans.Permutation;

/**
 * Compares containers, or heat sources with one or more containers on each, hour by hour. Two sides
 * are compared over the hours that are well covered in all their containers, so that a cold night
 * weighs the same for both. Intervals come from {@link AutocorrelatedMean}, since hours are not
 * independent. Between sources the container is the unit: how much containers on one source differ
 * decides what can be said of the sources (see {@link GroupMeans}).
 */
public final class HeatBench {
  /** A container with less than this share of the hours of its source's best one is left out. */
  private static final double LEAST_SHARE = 0.5;

  /** With fewer openings than this, times to recover get no interval. */
  private static final int FEWEST_RECOVERIES = 3;

  /**
   * What is compared: a container, or a heat source with its containers.
   *
   * @param source whether it is a heat source
   */
  public record Side(String key, String name, boolean source, List<BenchPlace> places) {
    public Side {
      places = List.copyOf(places);
    }
  }

  /**
   * Time to be warm again after openings.
   *
   * @param openings how many cooled a container
   * @param seen how many of them were seen to end
   * @param minutes the mean of those, with its interval by Student's t where there are enough
   */
  public record Recoveries(int openings, int seen, @Nullable Estimate minutes) {}

  /**
   * A side by itself, over all its well covered hours.
   *
   * @param leftOut containers of the source with too few hours
   * @param spreadC between the warmest and the coldest place of a source, by mean temperature, °C
   * @param variationC standard deviation of temperature over time, the mean over its places, °C;
   *     NaN where it is not known
   * @param profileC mean temperature at each of the 24 hours of the local day; NaN for none
   */
  @SuppressWarnings("ArrayRecordComponent")
  public record ComparedSide(
      Side side,
      List<BenchPlace> leftOut,
      int hours,
      BenchFigures figures,
      @Nullable Estimate spreadC,
      Recoveries recoveries,
      BenchPlace.@Nullable Longest longest,
      double variationC,
      double[] profileC) {}

  /**
   * Two sides: the first less the second.
   *
   * @param hours well covered in both
   * @param days how many whole days they fill
   * @param figures differences; none of any where the two share no hours
   * @param recoveryMinutes the difference of the times to recover; null for too few openings
   * @param sensorErrorPerDay by how much sensors may make the heat of a day differ, ±°C·h a day
   * @param between the difference of heat with the container as the unit; sources only
   * @param permutation the same by dealing the containers out anew; sources only
   */
  public record Pair(
      ComparedSide first,
      ComparedSide second,
      int hours,
      int days,
      BenchFigures figures,
      @Nullable Difference recoveryMinutes,
      double sensorErrorPerDay,
      @Nullable Difference between,
      @Nullable Permutation permutation) {

    public BenchFinding finding() {
      return BenchFinding.of(this);
    }
  }

  /** All sides, and every pair of them. */
  public record Comparison(List<ComparedSide> sides, List<Pair> pairs) {
    public Comparison {
      sides = List.copyOf(sides);
      pairs = List.copyOf(pairs);
    }
  }

  private HeatBench() {}

  /**
   * Compares every side with every other one.
   *
   * @param hours on which all places were laid out
   */
  public static Comparison compare(LocalHours hours, List<Side> sides) {
    List<ComparedSide> compared = sides.stream().map(side -> compared(hours, side)).toList();
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < compared.size(); i++) {
      for (int j = i + 1; j < compared.size(); j++) {
        pairs.add(pair(hours, compared.get(i), compared.get(j)));
      }
    }
    return new Comparison(compared, pairs);
  }

  private static ComparedSide compared(LocalHours hours, Side side) {
    int most = side.places().stream().mapToInt(place -> place.hours().count()).max().orElse(0);
    List<BenchPlace> used =
        side.places().stream()
            .filter(place -> place.hours().count() >= Math.max(1, LEAST_SHARE * most))
            .toList();
    List<BenchPlace> leftOut =
        side.source()
            ? side.places().stream().filter(place -> !used.contains(place)).toList()
            : List.of();
    Side counted = new Side(side.key(), side.name(), side.source(), used);
    boolean[] use = common(hours, used);
    BenchFigures figures =
        used.isEmpty()
            ? new BenchFigures(null, null, null, null, null)
            : BenchFigures.of(BenchFigures.Columns.averaged(heat(used), use));
    return new ComparedSide(
        counted,
        leftOut,
        count(use),
        figures,
        spread(used, use),
        recoveries(used),
        longest(used),
        variation(used, use),
        profile(used, use));
  }

  private static List<HeatHours> heat(List<BenchPlace> places) {
    return places.stream().map(BenchPlace::hours).toList();
  }

  /** The hours that are well covered in every one of the places. */
  private static boolean[] common(LocalHours hours, List<BenchPlace> places) {
    boolean[] use = new boolean[hours.count()];
    for (int i = 0; i < use.length; i++) {
      int hour = i;
      use[i] = !places.isEmpty() && places.stream().allMatch(place -> place.hours().known(hour));
    }
    return use;
  }

  private static int count(boolean[] use) {
    int count = 0;
    for (boolean used : use) {
      count += used ? 1 : 0;
    }
    return count;
  }

  private static @Nullable Estimate spread(List<BenchPlace> places, boolean[] use) {
    if (places.size() < 2) {
      return null;
    }
    double[][] columns =
        places.stream().map(place -> place.hours().mean(use)).toArray(double[][]::new);
    return AutocorrelatedMean.range(columns, BenchFigures.HOURS_PER_DAY);
  }

  private static Recoveries recoveries(List<BenchPlace> places) {
    double[] minutes = minutes(places);
    int openings = places.stream().mapToInt(place -> place.recoveries().size()).sum();
    Estimate estimate = null;
    if (minutes.length > 0) {
      Difference mean = minutes.length < FEWEST_RECOVERIES ? null : GroupMeans.mean(minutes);
      estimate =
          new Estimate(
              Arrays.stream(minutes).average().orElse(0),
              mean == null ? null : Math.max(0, mean.low()),
              mean == null ? null : mean.high(),
              minutes.length);
    }
    return new Recoveries(openings, minutes.length, estimate);
  }

  private static double[] minutes(List<BenchPlace> places) {
    return places.stream()
        .flatMap(place -> place.recoveries().stream())
        .map(Recovery::minutes)
        .flatMap(Stream::ofNullable)
        .mapToDouble(Double::doubleValue)
        .toArray();
  }

  private static BenchPlace.@Nullable Longest longest(List<BenchPlace> places) {
    BenchPlace.Longest longest = null;
    for (BenchPlace place : places) {
      BenchPlace.Longest next = place.longest();
      if (next != null
          && (longest == null || next.excursion().hours() > longest.excursion().hours())) {
        longest = next;
      }
    }
    return longest;
  }

  private static double variation(List<BenchPlace> places, boolean[] use) {
    return places.stream()
        .mapToDouble(place -> place.hours().course(use).standardDeviation())
        .average()
        .orElse(Double.NaN);
  }

  private static double[] profile(List<BenchPlace> places, boolean[] use) {
    double[] profile = new double[BenchFigures.HOURS_PER_DAY];
    if (places.isEmpty()) {
      Arrays.fill(profile, Double.NaN);
      return profile;
    }
    for (BenchPlace place : places) {
      double[] own = place.hours().profile(use);
      Arrays.setAll(profile, hour -> profile[hour] + own[hour] / places.size());
    }
    return profile;
  }

  private static Pair pair(LocalHours hours, ComparedSide first, ComparedSide second) {
    List<BenchPlace> a = first.side().places();
    List<BenchPlace> b = second.side().places();
    boolean[] use = common(hours, Stream.concat(a.stream(), b.stream()).toList());
    boolean none = a.isEmpty() || b.isEmpty() || count(use) == 0;
    if (none) {
      BenchFigures nothing = new BenchFigures(null, null, null, null, null);
      return new Pair(first, second, 0, 0, nothing, null, 0, null, null);
    }
    BenchFigures figures =
        BenchFigures.ofDifferences(
            BenchFigures.Columns.averaged(heat(a), use)
                .minus(BenchFigures.Columns.averaged(heat(b), use)));
    Estimate gain = figures.degreeHoursPerDay();
    boolean sources = first.side().source() && second.side().source();
    double[] unitsA = perDay(a, use);
    double[] unitsB = perDay(b, use);
    return new Pair(
        first,
        second,
        count(use),
        gain == null ? 0 : gain.days(),
        figures,
        recoveryDifference(a, b),
        sensorError(a, b, use),
        sources ? GroupMeans.welch(unitsA, unitsB) : null,
        sources ? GroupMeans.permutation(unitsA, unitsB) : null);
  }

  private static @Nullable Difference recoveryDifference(List<BenchPlace> a, List<BenchPlace> b) {
    double[] minutesA = minutes(a);
    double[] minutesB = minutes(b);
    return Math.min(minutesA.length, minutesB.length) < FEWEST_RECOVERIES
        ? null
        : GroupMeans.welch(minutesA, minutesB);
  }

  /** The heat of a day in each place, over the hours used, °C·h a day. */
  private static double[] perDay(List<BenchPlace> places, boolean[] use) {
    return places.stream().mapToDouble(place -> perDay(place.hours().gain(use))).toArray();
  }

  private static double perDay(double[] perHour) {
    return BenchFigures.HOURS_PER_DAY
        * Arrays.stream(perHour).filter(gain -> !Double.isNaN(gain)).average().orElse(0);
  }

  /** At worst every sensor of one side is too high, and every one of the other too low. */
  private static double sensorError(List<BenchPlace> a, List<BenchPlace> b, boolean[] use) {
    return Math.max(less(a, use) + more(b, use), more(a, use) + less(b, use));
  }

  private static double less(List<BenchPlace> places, boolean[] use) {
    return places.stream()
        .mapToDouble(place -> perDay(place.hours().less(use)))
        .average()
        .orElse(0);
  }

  private static double more(List<BenchPlace> places, boolean[] use) {
    return places.stream()
        .mapToDouble(place -> perDay(place.hours().more(use)))
        .average()
        .orElse(0);
  }
}
