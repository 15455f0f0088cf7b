package tepidarium.heat;

import java.time.Duration;
import java.util.Arrays;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * The temperatures inside a place and in the room at the same times, in columns. Above {@value
 * #MAX_SAMPLES} readings, consecutive readings are averaged; a place with a time constant of hours
 * shows no faster changes.
 */
final class TrialRecord {
  static final int MAX_SAMPLES = 2_000;
  private static final double MS_PER_HOUR = 3_600_000;

  final double[] hours;
  final double[] insideC;
  final double[] roomC;

  /** Whether there is a gap before each sample, inside or in the room. */
  final boolean[] afterGap;

  private TrialRecord(double[] hours, double[] insideC, double[] roomC, boolean[] afterGap) {
    this.hours = hours;
    this.insideC = insideC;
    this.roomC = roomC;
    this.afterGap = afterGap;
  }

  static TrialRecord of(Samples inside, Samples room, Span span, Duration maxGap) {
    Samples within = inside.between(span.fromMs(), span.toMs());
    int together = 1 + within.size() / MAX_SAMPLES;
    long gapMs = maxGap.toMillis();
    int most = within.size() / together + 1;
    double[] hours = new double[most];
    double[] insideC = new double[most];
    double[] roomC = new double[most];
    boolean[] afterGap = new boolean[most];
    int count = 0;
    boolean gap = true;
    for (int i = 0; i + together <= within.size(); i += together) {
      long first = within.atMs(i);
      long last = within.atMs(i + together - 1);
      long at = (first + last) / 2;
      var roomNow = room.valueAt(at, gapMs);
      gap |= i > 0 && !within.joined(i, gapMs);
      if (roomNow.isEmpty() || last - first > gapMs) {
        gap = true;
        continue;
      }
      hours[count] = (at - span.fromMs()) / MS_PER_HOUR;
      insideC[count] = mean(within, i, together);
      roomC[count] = roomNow.getAsDouble();
      afterGap[count] = gap;
      count++;
      gap = false;
    }
    return new TrialRecord(
        Arrays.copyOf(hours, count),
        Arrays.copyOf(insideC, count),
        Arrays.copyOf(roomC, count),
        Arrays.copyOf(afterGap, count));
  }

  private static double mean(Samples samples, int from, int count) {
    double sum = 0;
    for (int i = from; i < from + count; i++) {
      sum += samples.value(i);
    }
    return sum / count;
  }

  int size() {
    return hours.length;
  }

  /** The time between samples without gaps, h. */
  double coveredHours() {
    double covered = 0;
    for (int i = 1; i < size(); i++) {
      covered += afterGap[i] ? 0 : hours[i] - hours[i - 1];
    }
    return covered;
  }

  /** The mean of a column over covered time, linear between samples; NaN if no time is covered. */
  double meanOverTime(double[] values) {
    double sum = 0;
    for (int i = 1; i < size(); i++) {
      sum += afterGap[i] ? 0 : (values[i - 1] + values[i]) / 2 * (hours[i] - hours[i - 1]);
    }
    return sum / coveredHours();
  }
}
