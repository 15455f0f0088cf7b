package tepidarium.heat;

import java.util.Arrays;

/**
 * What heat did in one container hour by hour, in columns over {@link LocalHours}. Only hours well
 * covered by readings count; NaN stands for the others. Filled once, then only read.
 */
public final class HeatHours {
  /** An hour counts when at least so much of it is covered. Common practice, no source. */
  static final double LEAST_COVERED = 0.75;

  /** A day, or a night, counts when at least so much of its hours count. */
  private static final double LEAST_OF_A_DAY = 0.75;

  private static final int HOURS_OF_NIGHT = 24 - LocalHours.NIGHT_FROM + LocalHours.NIGHT_TO;

  private final LocalHours hours;
  private final double[] gainC;
  private final double[] inside;
  private final double[] meanC;
  private final double[] minC;
  private final double[] maxC;

  public HeatHours(LocalHours hours) {
    this.hours = hours;
    this.gainC = hours.column();
    this.inside = hours.column();
    this.meanC = hours.column();
    this.minC = hours.column();
    this.maxC = hours.column();
  }

  /**
   * Adds one hour; one that is not among the hours, or not well covered, is passed over.
   *
   * @param heat of that hour
   * @param outsideMs covered time below the band's low or above its high temperature, ms
   * @param meanC mean of the readings, °C
   */
  public void add(
      long startMs, HeatSum heat, double outsideMs, double meanC, double minC, double maxC) {
    int i = hours.indexOf(startMs);
    if (i < 0 || heat.coveredMs() < LEAST_COVERED * LocalHours.HOUR_MS) {
      return;
    }
    gainC[i] = heat.degreeHours() / heat.coveredHours();
    inside[i] = 1 - Math.min(1, outsideMs / heat.coveredMs());
    this.meanC[i] = meanC;
    this.minC[i] = minC;
    this.maxC[i] = maxC;
  }

  boolean known(int index) {
    return !Double.isNaN(gainC[index]);
  }

  /** How many hours are well covered. */
  public int count() {
    return (int) Arrays.stream(gainC).filter(gain -> !Double.isNaN(gain)).count();
  }

  /** The temperature gained above the base, °C, in the hours to use. */
  double[] gain(boolean[] use) {
    return only(gainC, use);
  }

  /** The share of the hour inside the band's temperatures. */
  double[] inside(boolean[] use) {
    return only(inside, use);
  }

  double[] mean(boolean[] use) {
    return only(meanC, use);
  }

  private static double[] only(double[] column, boolean[] use) {
    double[] kept = column.clone();
    for (int i = 0; i < kept.length; i++) {
      if (!use[i]) {
        kept[i] = Double.NaN;
      }
    }
    return kept;
  }

  /** The lowest reading of each night, °C. */
  double[] nightFloors(boolean[] use) {
    double[] lowest = emptyDays();
    int[] counts = new int[hours.days()];
    for (int i = 0; i < hours.count(); i++) {
      int night = hours.night(i);
      if (night >= 0 && use[i] && known(i)) {
        lowest[night] = counts[night] == 0 ? minC[i] : Math.min(lowest[night], minC[i]);
        counts[night]++;
      }
    }
    return enough(lowest, counts, HOURS_OF_NIGHT);
  }

  /** Highest less lowest reading of each local day, °C. */
  double[] swings(boolean[] use) {
    double[] lowest = emptyDays();
    double[] highest = emptyDays();
    int[] counts = new int[hours.days()];
    for (int i = 0; i < hours.count(); i++) {
      int day = hours.day(i);
      if (use[i] && known(i)) {
        lowest[day] = counts[day] == 0 ? minC[i] : Math.min(lowest[day], minC[i]);
        highest[day] = counts[day] == 0 ? maxC[i] : Math.max(highest[day], maxC[i]);
        counts[day]++;
      }
    }
    double[] swings = new double[lowest.length];
    Arrays.setAll(swings, day -> highest[day] - lowest[day]);
    return enough(swings, counts, 24);
  }

  /** The mean temperature at each hour of the local day, °C; NaN where there was none. */
  double[] profile(boolean[] use) {
    double[] sums = new double[24];
    int[] counts = new int[24];
    for (int i = 0; i < hours.count(); i++) {
      if (use[i] && known(i)) {
        sums[hours.hourOfDay(i)] += meanC[i];
        counts[hours.hourOfDay(i)]++;
      }
    }
    Arrays.setAll(sums, hour -> sums[hour] / counts[hour]);
    return sums;
  }

  private double[] emptyDays() {
    double[] days = new double[hours.days()];
    Arrays.fill(days, Double.NaN);
    return days;
  }

  private static double[] enough(double[] values, int[] counts, int whole) {
    for (int i = 0; i < values.length; i++) {
      if (counts[i] < LEAST_OF_A_DAY * whole) {
        values[i] = Double.NaN;
      }
    }
    return values;
  }
}
