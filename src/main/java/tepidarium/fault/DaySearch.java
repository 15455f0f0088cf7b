package tepidarium.fault;

import java.time.Duration;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.stats.Median;

/**
 * Finds the faults of one sensor on one day (UTC) by the rules that look at single readings and
 * their neighbours. A reading is judged the same way whichever day the search starts with: the
 * samples reach {@link #AROUND} beyond the day on both sides.
 */
public final class DaySearch {
  /**
   * Readings needed before and after the day: 12 h. Longer than the longest time that a rule looks
   * back or ahead (6 h of {@link StuckRule}).
   */
  public static final Duration AROUND = Duration.ofHours(12);

  /** Number of this version of the rules. Days searched by another version are searched again. */
  public static final int RULES = 2;

  private final SensorId sensor;
  private final long day;
  private final long fromMs;
  private final long untilMs;
  private final List<Fault> faults = new ArrayList<>();

  private DaySearch(SensorId sensor, long day) {
    this.sensor = sensor;
    this.day = day;
    fromMs = day * SensorDay.DAY_MS;
    untilMs = fromMs + SensorDay.DAY_MS;
  }

  /** The span whose raw samples are needed to search a day. */
  public static Span needed(long day) {
    long from = day * SensorDay.DAY_MS;
    return Span.ofMillis(from - AROUND.toMillis(), from + SensorDay.DAY_MS + AROUND.toMillis());
  }

  /** Searches one day in the raw samples of each quantity. */
  public static SensorDay of(SensorId sensor, long day, Map<Quantity, Samples> raw) {
    return new DaySearch(sensor, day).search(raw);
  }

  private SensorDay search(Map<Quantity, Samples> raw) {
    Map<Quantity, Samples> sound = new EnumMap<>(Quantity.class);
    raw.forEach((quantity, samples) -> sound.put(quantity, judgedAlone(quantity, samples)));
    sound.forEach(this::judgedTogether);
    Samples humidity = sound.getOrDefault(Quantity.HUMIDITY, Samples.EMPTY);
    Samples temperature = sound.getOrDefault(Quantity.TEMPERATURE, Samples.EMPTY);
    add(
        Quantity.HUMIDITY,
        FaultKind.SATURATED_HUMIDITY,
        humidity,
        MoistureRules.saturated(humidity));
    add(
        Quantity.HUMIDITY,
        FaultKind.CONDENSATION,
        humidity,
        MoistureRules.condensation(humidity, temperature));
    return figures(raw, sound);
  }

  /** Reports the values that are faulty by themselves, and returns the others. */
  private Samples judgedAlone(Quantity quantity, Samples samples) {
    BitSet faulty = new BitSet();
    Map<FaultKind, BitSet> marked = new EnumMap<>(FaultKind.class);
    for (int i = 0; i < samples.size(); i++) {
      FaultKind kind = kindOf(quantity, samples.value(i));
      if (kind != null) {
        marked.computeIfAbsent(kind, any -> new BitSet()).set(i);
        faulty.set(i);
      }
    }
    marked.forEach((kind, own) -> add(quantity, kind, samples, own));
    return Stretches.without(samples, faulty);
  }

  /** The kind of fault that a value shows by itself; null for none. */
  private static @Nullable FaultKind kindOf(Quantity quantity, double value) {
    FaultKind code = ErrorCodes.of(quantity, value).orElse(null);
    if (code != null) {
      return code;
    }
    if (quantity == Quantity.LIGHT && ErrorCodes.isSaturatedLight(value)) {
      return FaultKind.SATURATED_LIGHT;
    }
    return Implausible.is(quantity, value) ? FaultKind.IMPLAUSIBLE : null;
  }

  private void judgedTogether(Quantity quantity, Samples samples) {
    add(quantity, FaultKind.STUCK, samples, StuckRule.of(quantity, samples));
    add(quantity, FaultKind.SPIKE, samples, SpikeRule.of(quantity, samples));
    JumpRule.of(quantity, samples).stream()
        .filter(jump -> jump.toMs() >= fromMs && jump.toMs() < untilMs)
        .forEach(jump -> faults.add(Fault.of(sensor, quantity, FaultKind.JUMP, jump)));
  }

  private void add(Quantity quantity, FaultKind kind, Samples samples, BitSet marked) {
    for (Stretch stretch : Stretches.join(samples, marked, fromMs, untilMs)) {
      faults.add(Fault.of(sensor, quantity, kind, stretch));
    }
  }

  private SensorDay figures(Map<Quantity, Samples> raw, Map<Quantity, Samples> sound) {
    Samples most = Samples.EMPTY;
    for (Samples samples : raw.values()) {
      Samples today = samples.between(fromMs, untilMs);
      most = today.size() > most.size() ? today : most;
    }
    Map<Quantity, QuantityDay> quantities = new EnumMap<>(Quantity.class);
    Map<Quantity, double[]> means = new EnumMap<>(Quantity.class);
    sound.forEach(
        (quantity, samples) -> {
          Samples today = samples.between(fromMs, untilMs);
          if (!today.isEmpty() && StuckRule.judges(quantity)) {
            quantities.put(quantity, QuantityDay.of(today));
            means.put(quantity, hourlyMeans(today));
          }
        });
    Samples battery = sound.getOrDefault(Quantity.BATTERY, Samples.EMPTY).between(fromMs, untilMs);
    return new SensorDay(
        sensor,
        day,
        faults,
        most.size(),
        medianInterval(most),
        Median.of(values(battery)),
        quantities,
        means);
  }

  private double[] hourlyMeans(Samples today) {
    double[] sums = new double[SensorDay.HOURS];
    int[] counts = new int[SensorDay.HOURS];
    for (int i = 0; i < today.size(); i++) {
      int hour = (int) ((today.atMs(i) - fromMs) * SensorDay.HOURS / SensorDay.DAY_MS);
      sums[hour] += today.value(i);
      counts[hour]++;
    }
    for (int hour = 0; hour < SensorDay.HOURS; hour++) {
      sums[hour] = counts[hour] == 0 ? Double.NaN : sums[hour] / counts[hour];
    }
    return sums;
  }

  private static double medianInterval(Samples samples) {
    double[] seconds = new double[Math.max(0, samples.size() - 1)];
    for (int i = 0; i < seconds.length; i++) {
      seconds[i] = (samples.atMs(i + 1) - samples.atMs(i)) / 1000.0;
    }
    return Median.of(seconds);
  }

  private static double[] values(Samples samples) {
    double[] values = new double[samples.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = samples.value(i);
    }
    return values;
  }
}
