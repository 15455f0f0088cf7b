package tepidarium.alert;

import static tepidarium.alert.SensorSign.Kind.DISAGREEING;
import static tepidarium.alert.SensorSign.Kind.IMPLAUSIBLE;
import static tepidarium.alert.SensorSign.Kind.JUMPING;
import static tepidarium.alert.SensorSign.Kind.STUCK;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import tepidarium.alert.AlertReason.Code;
import tepidarium.fault.ErrorCodes;
import tepidarium.fault.FaultKind;
import tepidarium.fault.Implausible;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;

/**
 * Detects faulty sensors from the readings of the last 8 h. No reading is dropped. Light and
 * battery are not checked, because constant darkness for weeks is normal. The bounds are common
 * practice, no source, except 85.0 °C, which a DS18B20 reports after power-up (maker's data sheet,
 * value from memory).
 */
public final class SensorSigns {
  /** Length of past readings needed. */
  public static final Duration LOOKS_BACK = Duration.ofHours(8);

  private static final List<Quantity> JUDGED = List.of(Quantity.TEMPERATURE, Quantity.HUMIDITY);

  /** A fault counts only if it was seen within this time before the last reading. */
  private static final Duration MAX_AGE = Duration.ofHours(1);

  /** At and above this humidity, a constant value of a wet capacitive sensor is normal. */
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

  /** Allowance for real differences between two places in one container. */
  private static final double PLACES_C = 0.5;

  private static final double PLACES_PERCENT = 3;
  private static final double HUMIDITY_ERROR_PERCENT = 5;

  /**
   * The recent readings of one sensor.
   *
   * @param samples of each quantity, calibrated; the last {@link #LOOKS_BACK} of them
   * @param temperatureErrorC temperature error, ±°C
   */
  public record Report(SensorId sensor, Map<Quantity, Samples> samples, double temperatureErrorC) {
    public Report {
      samples = Map.copyOf(samples);
    }

    private Samples of(Quantity quantity) {
      return samples.getOrDefault(quantity, Samples.EMPTY);
    }
  }

  private SensorSigns() {}

  /**
   * Finds the faults of the sensors in one container. They are ordered by {@link SensorSign.Kind}
   * for each sensor, with at most one per kind and quantity.
   *
   * @param inside the sensors in the container now
   * @param elsewhere temperatures of the room and of other containers over the same hours, to
   *     distinguish a stuck sensor from a stable temperature
   * @param maxGap readings further apart are not compared
   */
  public static List<SensorSign> of(List<Report> inside, List<Samples> elsewhere, Duration maxGap) {
    List<SensorSign> faults = new ArrayList<>();
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
   * Checks whether a value is impossible in a germination container. The power-on value is
   * recognised by its number alone; a real 85.0 °C would kill the seeds and also needs a check.
   */
  public static Optional<AlertReason> implausible(
      SensorId sensor, Quantity quantity, double value) {
    if (!quantity.plausible(value)) {
      return Optional.of(Code.NOT_MEASURABLE.with(sensor, quantity.key(), value));
    }
    if (ErrorCodes.of(quantity, value).filter(code -> code == FaultKind.POWER_ON).isPresent()) {
      return Optional.of(Code.POWER_ON.with(sensor));
    }
    return JUDGED.contains(quantity) && Implausible.is(quantity, value)
        ? Optional.of(Code.IMPOSSIBLE.with(sensor, quantity.key(), value))
        : Optional.empty();
  }

  private static Optional<SensorSign> implausible(
      Report report, Quantity quantity, Samples samples) {
    Samples late = latest(samples, MAX_AGE);
    for (int i = late.size() - 1; i >= 0; i--) {
      Optional<AlertReason> reason = implausible(report.sensor(), quantity, late.value(i));
      if (reason.isPresent()) {
        return Optional.of(fault(report, quantity, IMPLAUSIBLE, late.atMs(i), reason.get()));
      }
    }
    return Optional.empty();
  }

  /**
   * Detects a stuck sensor. The value of a sensor with a resolution of 1 °C is constant in any
   * stable container, so another sensor must have changed by at least 2 °C.
   */
  private static Optional<SensorSign> stuck(
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
    double hours = (to - from) / 3_600_000.0;
    AlertReason reason = Code.STUCK.with(report.sensor(), quantity.key(), value, hours);
    return Optional.of(fault(report, quantity, STUCK, from, reason));
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

  /**
   * Detects repeated jumps up and down. An opening, in contrast, is one step down and a slow
   * recovery.
   */
  private static Optional<SensorSign> jumping(Report report, Quantity quantity, Samples all) {
    Samples samples = latest(all, JUMPS_WITHIN.plus(MAX_AGE));
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
          AlertReason reason = Code.JUMPING.with(report.sensor(), quantity.key(), least);
          return Optional.of(fault(report, quantity, JUMPING, jumps.get(0), reason));
        }
      }
    }
    return Optional.empty();
  }

  private static List<SensorSign> disagreeing(List<Report> inside, Duration maxGap) {
    List<SensorSign> faults = new ArrayList<>();
    for (int i = 0; i < inside.size(); i++) {
      for (int j = i + 1; j < inside.size(); j++) {
        for (Quantity quantity : JUDGED) {
          disagreeing(inside.get(i), inside.get(j), quantity, maxGap).ifPresent(faults::add);
        }
      }
    }
    return faults;
  }

  /** Reports the second sensor; which of the two is wrong is unknown. */
  private static Optional<SensorSign> disagreeing(
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
    AlertReason reason =
        Code.DISAGREEING.with(
            second.sensor(), quantity.key(), Math.abs(difference), first.sensor());
    return Optional.of(fault(second, quantity, DISAGREEING, since, reason));
  }

  private static SensorSign fault(
      Report report, Quantity quantity, SensorSign.Kind kind, long sinceMs, AlertReason reason) {
    return new SensorSign(report.sensor(), quantity, kind, Instant.ofEpochMilli(sinceMs), reason);
  }
}
