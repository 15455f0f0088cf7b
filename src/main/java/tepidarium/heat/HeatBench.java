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
 * Compares containers, or heat sources with one or more containers each, hour by hour. Two sides
 * are compared over the hours that are well covered in all their containers, so a cold night
 * affects both. Intervals come from {@link AutocorrelatedMean}, because neighbouring hours are not
 * independent. Between heat sources the container is the statistical unit: the variation between
 * containers on one source limits the conclusions about sources (see {@link GroupMeans}).
 */
public final class HeatBench {
  /**
   * A container with less than this share of the hours of the best-covered container of its source
   * is left out.
   */
  private static final double MIN_SHARE = 0.5;

  /** Least number of openings for an interval of the recovery time. */
  private static final int MIN_RECOVERIES = 3;

  /**
   * One side of a comparison: a container, or a heat source with its containers.
   *
   * @param source whether it is a heat source
   */
  public record Side(String key, String name, boolean source, List<BenchPlace> places) {
    public Side {
      places = List.copyOf(places);
    }
  }

  /**
   * Recovery times after openings.
   *
   * @param openings number of openings that cooled a container
   * @param seen number of openings after which a recovery was seen
   * @param minutes mean recovery time, min, with its interval by Student's t if there are enough
   */
  public record Recoveries(int openings, int seen, @Nullable Estimate minutes) {}

  /**
   * The figures of one side over all its well covered hours.
   *
   * @param leftOut containers of the source with too few hours
   * @param spreadC range of the mean temperatures of the containers of a source, °C
   * @param variationC standard deviation of temperature over time, mean over its containers, °C;
   *     NaN if not known
   * @param profileC mean temperature at each of the 24 hours of the local day, °C; NaN if not known
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
   * The comparison of two sides; differences are first less second.
   *
   * @param hours hours that are well covered in both
   * @param days number of whole days in these hours
   * @param figures differences; all null if the sides share no hours
   * @param recoveryMinutes difference of the recovery times, min; null for too few openings
   * @param sensorErrorPerDay possible error of the heat difference due to the sensors, ±°C·h per
   *     day
   * @param between difference of heat with the container as the unit; heat sources only
   * @param permutation permutation test over the containers; heat sources only
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

  /** The comparison of all sides and of every pair. */
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
   * @param hours hours shared by all containers
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
            .filter(place -> place.hours().count() >= Math.max(1, MIN_SHARE * most))
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

  /** The hours that are well covered in all containers. */
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
      Difference mean = minutes.length < MIN_RECOVERIES ? null : GroupMeans.mean(minutes);
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
    return Math.min(minutesA.length, minutesB.length) < MIN_RECOVERIES
        ? null
        : GroupMeans.welch(minutesA, minutesB);
  }

  /** The mean heat per day of each container over the used hours, °C·h per day. */
  private static double[] perDay(List<BenchPlace> places, boolean[] use) {
    return places.stream().mapToDouble(place -> perDay(place.hours().gain(use))).toArray();
  }

  private static double perDay(double[] perHour) {
    return BenchFigures.HOURS_PER_DAY
        * Arrays.stream(perHour).filter(gain -> !Double.isNaN(gain)).average().orElse(0);
  }

  /** The worst case: all sensors of one side read too high, and all of the other too low. */
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
