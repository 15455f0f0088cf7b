package tepidarium.alert;

import static tepidarium.alert.SensorFault.Kind.DISAGREEING;
import static tepidarium.alert.SensorFault.Kind.IMPLAUSIBLE;
import static tepidarium.alert.SensorFault.Kind.JUMPING;
import static tepidarium.alert.SensorFault.Kind.STUCK;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;

/**
 * Finds sensors that cannot be right, from their last hours. It judges and drops nothing: a flagged
 * value stays in the record. Light and battery are not judged: dark for weeks is what is wanted.
 * The bounds are common practice, no source, but for 85.0 °C, which a DS18B20 reports after
 * power-up (maker's data sheet, value from memory).
 */
public final class SensorFaults {
  /** How much of the past is needed. */
  public static final Duration LOOKS_BACK = Duration.ofHours(8);

  private static final List<Quantity> JUDGED = List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY);

  /** What is older than this before the last reading is over. */
  private static final Duration NEWS = Duration.ofHours(1);

  private static final double POWER_ON_C = 85;
  private static final double COLDEST_C = -30;
  private static final double HOTTEST_C = 70;
  private static final double DRIEST_PERCENT = 1;

  /** At and above it a wet capacitive sensor may well stand still, and says little. */
  private static final double SATURATED_PERCENT = 95;

  private static final Duration STUCK_FOR = Duration.ofHours(6);
  private static final int STUCK_READINGS = 20;
  private static final double OTHERS_MOVED_C = 1;
  private static final double OTHERS_MOVED_COARSE_C = 2;

  private static final Duration JUMP_WITHIN = Duration.ofMinutes(10);
  private static final Duration JUMPS_WITHIN = Duration.ofHours(1);
  private static final int JUMPS = 3;
  private static final double JUMP_C = 5;
  private static final double JUMP_PERCENT = 25;

  private static final Duration DISAGREEING_FOR = Duration.ofHours(1);
  private static final int DISAGREEING_READINGS = 4;

  /** Two places in one container really differ by some of it. */
  private static final double PLACES_C = 0.5;

  private static final double PLACES_PERCENT = 3;
  private static final double HUMIDITY_ERROR_PERCENT = 5;

  /**
   * What one sensor reported lately.
   *
   * @param samples of each quantity, calibrated; the last {@link #LOOKS_BACK} of them
   * @param temperatureErrorC how far off its temperature may be, ±°C
   */
  public record Report(SensorId sensor, Map<Quantity, Samples> samples, double temperatureErrorC) {
    public Report {
      samples = Map.copyOf(samples);
    }

    private Samples of(Quantity quantity) {
      return samples.getOrDefault(quantity, Samples.EMPTY);
    }
  }

  private SensorFaults() {}

  /**
   * The faults of the sensors of one container, each sensor's in the order of {@link
   * SensorFault.Kind}, at most one of a kind and quantity.
   *
   * @param inside the sensors in the container now
   * @param elsewhere temperatures of the room and of other containers over the same hours, by which
   *     to tell a stuck sensor from a quiet one
   * @param maxGap readings further apart are not compared
   */
  public static List<SensorFault> of(
      List<Report> inside, List<Samples> elsewhere, Duration maxGap) {
    List<SensorFault> faults = new ArrayList<>();
    for (Report report : inside) {
      List<Samples> beside =
          inside.stream()
              .filter(other -> !other.sensor().equals(report.sensor()))
              .map(other -> other.of(Quantity.TEMPERATURE))
              .toList();
      for (Quantity quantity : JUDGED) {
        Samples samples = report.of(quantity);
        implausible(report, quantity, samples).ifPresent(faults::add);
        stuck(report, quantity, samples, beside, elsewhere).ifPresent(faults::add);
        jumping(report, quantity, samples).ifPresent(faults::add);
      }
    }
    faults.addAll(disagreeing(inside, maxGap));
    return faults;
  }

  /**
   * Whether a value of a germination container cannot be right. The power-on value is told by
   * number alone: a real 85.0 °C would kill the seeds, and is worth a look as well.
   */
  public static Optional<String> implausible(Quantity quantity, double value) {
    String said = number(value) + ' ' + quantity.unit();
    if (!quantity.plausible(value)) {
      return Optional.of(said + " is outside what a sensor can measure: broken wire or sensor");
    }
    return switch (quantity) {
      case TEMPERATURE ->
          value == POWER_ON_C
              ? Optional.of(
                  "exactly 85 °C, which a DS18B20 says after power-up without having measured:"
                      + " look at its supply and cable")
              : Optional.of(said + " cannot be in a germination container: look at the sensor")
                  .filter(words -> value < COLDEST_C || value > HOTTEST_C);
      case HUMIDITY ->
          Optional.of(said + " cannot be in a moist container: sensor broken or not connected")
              .filter(words -> value < DRIEST_PERCENT);
      case LIGHT, BATTERY -> Optional.empty();
    };
  }

  private static Optional<SensorFault> implausible(
      Report report, Quantity quantity, Samples samples) {
    Samples late = latest(samples, NEWS);
    for (int i = late.size() - 1; i >= 0; i--) {
      Optional<String> words = implausible(quantity, late.value(i));
      if (words.isPresent()) {
        return Optional.of(fault(report, quantity, IMPLAUSIBLE, late.atMs(i), words.get()));
      }
    }
    return Optional.empty();
  }

  /**
   * A sensor with steps of whole degrees stands still in any steady container, so that only one
   * beside it that moved by two of them tells.
   */
  private static Optional<SensorFault> stuck(
      Report report,
      Quantity quantity,
      Samples samples,
      List<Samples> beside,
      List<Samples> elsewhere) {
    if (samples.isEmpty()) {
      return Optional.empty();
    }
    int last = samples.size() - 1;
    double value = samples.value(last);
    int first = last;
    while (first > 0 && samples.value(first - 1) == value) {
      first--;
    }
    long from = samples.atMs(first);
    long to = samples.atMs(last);
    boolean quiet = quantity == Quantity.HUMIDITY && value >= SATURATED_PERCENT;
    boolean longEnough = to - from >= STUCK_FOR.toMillis() && last - first + 1 >= STUCK_READINGS;
    boolean coarse = value == Math.rint(value);
    double least = coarse ? OTHERS_MOVED_COARSE_C : OTHERS_MOVED_C;
    Stream<Samples> others =
        coarse ? beside.stream() : Stream.concat(beside.stream(), elsewhere.stream());
    if (quiet || !longEnough || others.noneMatch(other -> range(other, from, to) >= least)) {
      return Optional.empty();
    }
    String words =
        String.format(
            Locale.ROOT,
            "says %s %s without any change for %.0f h, while other sensors moved: restart it, look"
                + " at its wiring",
            number(value),
            quantity.unit(),
            (to - from) / 3_600_000.0);
    return Optional.of(fault(report, quantity, STUCK, from, words));
  }

  private static double range(Samples other, long fromMs, long toMs) {
    Samples meanwhile = other.between(fromMs, toMs + 1);
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < meanwhile.size(); i++) {
      least = Math.min(least, meanwhile.value(i));
      most = Math.max(most, meanwhile.value(i));
    }
    return most - least;
  }

  private static Samples latest(Samples samples, Duration length) {
    return samples.isEmpty()
        ? samples
        : samples.between(samples.lastMs() - length.toMillis(), samples.lastMs() + 1);
  }

  /** Steps to and fro: an opening is one step down and a slow way back. */
  private static Optional<SensorFault> jumping(Report report, Quantity quantity, Samples all) {
    Samples samples = latest(all, JUMPS_WITHIN.plus(NEWS));
    double least = quantity == Quantity.TEMPERATURE ? JUMP_C : JUMP_PERCENT;
    List<Long> jumps = new ArrayList<>();
    double lastStep = 0;
    for (int i = 1; i < samples.size(); i++) {
      double step = samples.value(i) - samples.value(i - 1);
      long length = samples.atMs(i) - samples.atMs(i - 1);
      if (Math.abs(step) >= least && length <= JUMP_WITHIN.toMillis()) {
        if (step * lastStep >= 0 && lastStep != 0) {
          jumps.clear();
        }
        lastStep = step;
        jumps.add(samples.atMs(i));
        long earliest = samples.atMs(i) - JUMPS_WITHIN.toMillis();
        jumps.removeIf(at -> at < earliest);
        if (jumps.size() >= JUMPS) {
          String words =
              String.format(
                  Locale.ROOT,
                  "jumps to and fro by %s %s or more, which no sealed container does: look at its"
                      + " wiring and supply",
                  number(least),
                  quantity.unit());
          return Optional.of(fault(report, quantity, JUMPING, jumps.get(0), words));
        }
      }
    }
    return Optional.empty();
  }

  private static List<SensorFault> disagreeing(List<Report> inside, Duration maxGap) {
    List<SensorFault> faults = new ArrayList<>();
    for (int i = 0; i < inside.size(); i++) {
      for (int j = i + 1; j < inside.size(); j++) {
        for (Quantity quantity : JUDGED) {
          disagreeing(inside.get(i), inside.get(j), quantity, maxGap).ifPresent(faults::add);
        }
      }
    }
    return faults;
  }

  /** Told of the second one; which of the two is wrong cannot be known. */
  private static Optional<SensorFault> disagreeing(
      Report first, Report second, Quantity quantity, Duration maxGap) {
    double allowed =
        quantity == Quantity.TEMPERATURE
            ? first.temperatureErrorC() + second.temperatureErrorC() + PLACES_C
            : 2 * HUMIDITY_ERROR_PERCENT + PLACES_PERCENT;
    Samples here = second.of(quantity);
    Samples there = first.of(quantity);
    long since = 0;
    long latest = 0;
    int readings = 0;
    double difference = 0;
    for (int i = here.size() - 1; i >= 0; i--) {
      OptionalDouble other = there.valueAt(here.atMs(i), maxGap.toMillis());
      if (other.isEmpty()) {
        continue;
      }
      double off = here.value(i) - other.getAsDouble();
      boolean saturated =
          quantity == Quantity.HUMIDITY
              && Math.min(here.value(i), other.getAsDouble()) >= SATURATED_PERCENT;
      if (Math.abs(off) <= allowed || saturated || off * difference < 0) {
        break;
      }
      latest = readings == 0 ? here.atMs(i) : latest;
      difference = readings == 0 ? off : difference;
      since = here.atMs(i);
      readings++;
    }
    if (readings < DISAGREEING_READINGS || latest - since < DISAGREEING_FOR.toMillis()) {
      return Optional.empty();
    }
    String words =
        String.format(
            Locale.ROOT,
            "and %s in the same container differ by %.1f %s, more than both may be off: hold them"
                + " side by side, and calibrate or change one",
            first.sensor(),
            Math.abs(difference),
            quantity.unit());
    return Optional.of(fault(second, quantity, DISAGREEING, since, words));
  }

  private static SensorFault fault(
      Report report, Quantity quantity, SensorFault.Kind kind, long sinceMs, String words) {
    return new SensorFault(report.sensor(), quantity, kind, Instant.ofEpochMilli(sinceMs), words);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
  }
}
