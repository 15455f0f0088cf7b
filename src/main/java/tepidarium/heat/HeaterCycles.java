package tepidarium.heat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tepidarium.stats.GroupMeans;
import tepidarium.stats.GroupMeans.Difference;

/**
 * The cycles of a switched heater, detected from the temperature: it rises while the heater is on
 * and falls while it is off.
 *
 * @param count whole cycles, from one minimum to the next
 * @param onBelowC mean of the minima, at which the heater switches on, °C
 * @param offAboveC mean of the maxima, at which it switches off, °C
 * @param periodHours mean length of a cycle, h
 * @param duty share of time with the heater on, with its 95 % interval over the cycles
 * @param samplesPerCycle mean number of readings in a cycle
 */
public record HeaterCycles(
    int count,
    double onBelowC,
    double offAboveC,
    double periodHours,
    Difference duty,
    double samplesPerCycle) {
  /**
   * Least temperature difference between turning points, °C; less may be noise. Common practice, no
   * source.
   */
  static final double MIN_TURN_C = 0.4;

  private static final int MIN_CYCLES = 6;
  private static final double MAX_PERIOD_HOURS = 6;
  private static final double MIN_SAMPLES_PER_CYCLE = 3;

  /** A turning point: its sample, and whether it is a minimum. */
  private record Turn(int sample, boolean low) {}

  /**
   * Detects the cycles of a record; empty if there are too few or too slow ones, or too few
   * readings.
   */
  static Optional<HeaterCycles> in(TrialRecord record) {
    List<Turn> turns = turns(record);
    List<Double> duties = new ArrayList<>();
    double samples = 0;
    double hours = 0;
    for (int i = 0; i + 2 < turns.size(); i++) {
      Turn low = turns.get(i);
      int end = turns.get(i + 2).sample();
      if (low.low() && !gapWithin(record, low.sample(), end)) {
        double length = record.hours[end] - record.hours[low.sample()];
        double on = record.hours[turns.get(i + 1).sample()] - record.hours[low.sample()];
        duties.add(on / length);
        hours += length;
        samples += end - low.sample();
      }
    }
    int count = duties.size();
    Difference duty = GroupMeans.mean(duties.stream().mapToDouble(d -> d).toArray());
    if (count < MIN_CYCLES
        || duty == null
        || hours / count > MAX_PERIOD_HOURS
        || samples / count < MIN_SAMPLES_PER_CYCLE) {
      return Optional.empty();
    }
    Difference cut =
        new Difference(duty.value(), Math.max(0, duty.low()), Math.min(1, duty.high()));
    return Optional.of(
        new HeaterCycles(
            count,
            meanOf(record, turns, true),
            meanOf(record, turns, false),
            hours / count,
            cut,
            samples / count));
  }

  private static boolean gapWithin(TrialRecord record, int from, int to) {
    for (int i = from + 1; i <= to; i++) {
      if (record.afterGap[i]) {
        return true;
      }
    }
    return false;
  }

  private static double meanOf(TrialRecord record, List<Turn> turns, boolean low) {
    return turns.stream()
        .filter(turn -> turn.low() == low)
        .mapToDouble(turn -> record.insideC[turn.sample()])
        .average()
        .orElse(Double.NaN);
  }

  /** For each sample, 1 if the heater was on before it, else 0. */
  static double[] on(TrialRecord record) {
    double[] on = new double[record.size()];
    int done = 0;
    boolean low = true;
    for (Turn turn : turns(record)) {
      // The heater is on before a maximum and off before a minimum.
      fill(on, done, turn.sample(), turn.low() ? 0 : 1);
      done = turn.sample() + 1;
      low = turn.low();
    }
    fill(on, done, on.length - 1, low ? 1 : 0);
    return on;
  }

  private static void fill(double[] on, int from, int to, double value) {
    for (int i = from; i <= to; i++) {
      on[i] = value;
    }
  }

  /** Alternating maxima and minima that differ by at least {@link #MIN_TURN_C}. */
  private static List<Turn> turns(TrialRecord record) {
    List<Turn> turns = new ArrayList<>();
    double[] values = record.insideC;
    int low = 0;
    int high = 0;
    int rising = 0;
    for (int i = 1; i < values.length; i++) {
      low = values[i] < values[low] ? i : low;
      high = values[i] > values[high] ? i : high;
      if (rising >= 0 && values[high] - values[i] >= MIN_TURN_C) {
        turns.add(new Turn(high, false));
        rising = -1;
        low = i;
      } else if (rising <= 0 && values[i] - values[low] >= MIN_TURN_C) {
        turns.add(new Turn(low, true));
        rising = 1;
        high = i;
      }
    }
    return turns;
  }
}
