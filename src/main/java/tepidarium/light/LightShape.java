package tepidarium.light;

import java.util.Arrays;
import tepidarium.reading.Samples;

/**
 * The shape of a light event over time. Light of a lamp starts at full brightness and stays
 * constant. Daylight rises and falls gradually. The bounds are common practice, no source.
 *
 * @param litReadings number of readings above the limit
 * @param firstShare the first of them divided by their 80th percentile, at least 0
 * @param lastShare the last of them divided by their 80th percentile, at least 0
 * @param spread the range from the 10th to the 90th percentile divided by the median, at least 0
 */
public record LightShape(int litReadings, double firstShare, double lastShare, double spread) {
  private static final int ENOUGH_READINGS = 3;
  private static final double SUDDEN_SHARE = 0.6;
  private static final double STEADY_SPREAD = 0.2;

  /** The shape of an event that was found in the samples with this limit. */
  public static LightShape of(Samples light, LightEvent event, double limitLux) {
    long end = event.lastSeen().toEpochMilli();
    double[] lit = new double[light.size()];
    int count = 0;
    int from = light.indexFrom(event.start().toEpochMilli());
    for (int i = from; i < light.size() && light.atMs(i) <= end; i++) {
      if (light.value(i) > limitLux) {
        lit[count++] = light.value(i);
      }
    }
    if (count == 0) {
      return new LightShape(0, 0, 0, 0);
    }
    double first = lit[0];
    double last = lit[count - 1];
    double[] sorted = Arrays.copyOf(lit, count);
    Arrays.sort(sorted);
    double upper = percentile(sorted, 0.8);
    double spread = (percentile(sorted, 0.9) - percentile(sorted, 0.1)) / percentile(sorted, 0.5);
    return new LightShape(count, first / upper, last / upper, spread);
  }

  private static double percentile(double[] sorted, double share) {
    return sorted[(int) Math.round(share * (sorted.length - 1))];
  }

  /** Whether there are enough readings to determine the shape. */
  boolean known() {
    return litReadings >= ENOUGH_READINGS;
  }

  /** Whether the light started at full brightness and stayed constant. */
  boolean likeALamp() {
    return known()
        && spread <= STEADY_SPREAD
        && firstShare > SUDDEN_SHARE
        && lastShare > SUDDEN_SHARE;
  }

  /** Whether the light rose and fell gradually. */
  boolean likeTheSky() {
    return known()
        && spread > STEADY_SPREAD
        && firstShare <= SUDDEN_SHARE
        && lastShare <= SUDDEN_SHARE;
  }

  /** Whether the light started at full brightness. */
  boolean sudden() {
    return firstShare > SUDDEN_SHARE;
  }
}
