package tepidarium.heat;

import java.util.Arrays;
import tepidarium.reading.TimeWeighted;

/**
 * Holds the heat of one container hour by hour, in columns over {@link LocalHours}. Only hours that
 * are well covered by readings have values; the others are NaN. Filled once, then read-only.
 */
public final class HeatHours {
  /** Least covered share of an hour. Common practice, no source. */
  static final double MIN_COVERED_SHARE = 0.75;

  /** Least share of well covered hours of a day or night. */
  private static final double MIN_DAY_SHARE = 0.75;

  private static final int HOURS_OF_NIGHT = 24 - LocalHours.NIGHT_FROM + LocalHours.NIGHT_TO;

  private final LocalHours hours;
  private final double[] gainC;
  private final double[] inside;
  private final TimeWeighted[] courses;
  private final double[] lessC;
  private final double[] moreC;

  public HeatHours(LocalHours hours) {
    this.hours = hours;
    this.gainC = hours.column();
    this.inside = hours.column();
    this.courses = new TimeWeighted[hours.count()];
    Arrays.fill(courses, TimeWeighted.NONE);
    this.lessC = hours.column();
    this.moreC = hours.column();
  }

  /**
   * Adds one hour. Ignores an hour outside the span or one that is not well covered.
   *
   * @param heat heat of that hour
   * @param outsideMs covered time below the band's low or above its high temperature, ms
   * @param temperature temperature over the covered time of that hour, °C
   * @param sensor possible error of its heat due to the sensor
   */
  public void add(
      long startMs, HeatSum heat, double outsideMs, TimeWeighted temperature, SensorError sensor) {
    int i = hours.indexOf(startMs);
    if (i < 0 || heat.coveredMs() < MIN_COVERED_SHARE * LocalHours.HOUR_MS) {
      return;
    }
    gainC[i] = heat.degreeHours() / heat.coveredHours();
    inside[i] = 1 - Math.min(1, outsideMs / heat.coveredMs());
    courses[i] = temperature;
    lessC[i] = sensor.less() / heat.coveredHours();
    moreC[i] = sensor.more() / heat.coveredHours();
  }

  boolean known(int index) {
    return !Double.isNaN(gainC[index]);
  }

  /** The number of well covered hours. */
  public int count() {
    return (int) Arrays.stream(gainC).filter(gain -> !Double.isNaN(gain)).count();
  }

  /** The mean heat per hour in the hours to use, °C·h per h. */
  double[] gain(boolean[] use) {
    return only(gainC, use);
  }

  /** The excess of the gain if the sensor reads too high by its error, °C. */
  double[] less(boolean[] use) {
    return only(lessC, use);
  }

  /** The deficit of the gain if the sensor reads too low by its error, °C. */
  double[] more(boolean[] use) {
    return only(moreC, use);
  }

  /** The share of the hour inside the band's temperatures. */
  double[] inside(boolean[] use) {
    return only(inside, use);
  }

  /** The mean temperature over the covered time of the hour, °C. */
  double[] mean(boolean[] use) {
    return only(Arrays.stream(courses).mapToDouble(TimeWeighted::mean).toArray(), use);
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

  /** The lowest temperature of each night, °C. */
  double[] nightFloors(boolean[] use) {
    double[] lowest = emptyDays();
    int[] counts = new int[hours.days()];
    for (int i = 0; i < hours.count(); i++) {
      int night = hours.night(i);
      if (night >= 0 && use[i] && known(i)) {
        double minC = courses[i].min();
        lowest[night] = counts[night] == 0 ? minC : Math.min(lowest[night], minC);
        counts[night]++;
      }
    }
    return enough(lowest, counts, HOURS_OF_NIGHT);
  }

  /** Highest less lowest temperature of each local day, °C. */
  double[] swings(boolean[] use) {
    double[] lowest = emptyDays();
    double[] highest = emptyDays();
    int[] counts = new int[hours.days()];
    for (int i = 0; i < hours.count(); i++) {
      int day = hours.day(i);
      if (use[i] && known(i)) {
        double minC = courses[i].min();
        double maxC = courses[i].max();
        lowest[day] = counts[day] == 0 ? minC : Math.min(lowest[day], minC);
        highest[day] = counts[day] == 0 ? maxC : Math.max(highest[day], maxC);
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
        sums[hours.hourOfDay(i)] += courses[i].mean();
        counts[hours.hourOfDay(i)]++;
      }
    }
    Arrays.setAll(sums, hour -> sums[hour] / counts[hour]);
    return sums;
  }

  /** The temperature over the covered time of all hours to use. */
  TimeWeighted course(boolean[] use) {
    TimeWeighted whole = TimeWeighted.NONE;
    for (int i = 0; i < courses.length; i++) {
      whole = use[i] && known(i) ? whole.plus(courses[i]) : whole;
    }
    return whole;
  }

  private double[] emptyDays() {
    double[] days = new double[hours.days()];
    Arrays.fill(days, Double.NaN);
    return days;
  }

  private static double[] enough(double[] values, int[] counts, int whole) {
    for (int i = 0; i < values.length; i++) {
      if (counts[i] < MIN_DAY_SHARE * whole) {
        values[i] = Double.NaN;
      }
    }
    return values;
  }
}
