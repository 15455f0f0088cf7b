package tepidarium.history;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.container.SensorCorrection;
import tepidarium.fault.Exclusions;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSource;

/**
 * Queries the calibrated readings of a container, without those that figures leave out. If several
 * of its sensors report the same quantity, the sensor placed first is used, and the others fill its
 * gaps. Thread-safe.
 */
public final class CalibratedReadings {
  /** Stands for an unknown temperature, °C. */
  private static final double USUAL_C = 25;

  private final ReadingSource source;
  private final Register register;
  private final Duration maxGap;

  public CalibratedReadings(ReadingSource source, Register register, Duration maxGap) {
    this.source = source;
    this.register = register;
    this.maxGap = maxGap;
  }

  public Duration maxGap() {
    return maxGap;
  }

  /**
   * The container's samples of each quantity over the span. The span is widened by {@link #maxGap}
   * on both sides, for interpolation at its ends. A quantity without readings has no entry. The
   * samples are empty if all readings were left out.
   *
   * @param container a container, or the room
   */
  public Map<Quantity, Samples> samples(ContainerId container, Span span) {
    Span wide = new Span(span.from().minus(maxGap), span.to().plus(maxGap));
    Map<Quantity, Samples> merged = new EnumMap<>(Quantity.class);
    for (Placement placement : register.placementsIn(container)) {
      Span overlap = overlap(placement, wide);
      if (overlap.from().isBefore(overlap.to())) {
        read(placement.sensor(), overlap, true)
            .forEach(
                (quantity, samples) ->
                    merged.merge(
                        quantity,
                        samples,
                        (first, next) -> first.gapsFilledFrom(next, maxGap.toMillis())));
      }
    }
    return merged;
  }

  /**
   * All samples of each sensor that was in the container during the span, also those that figures
   * leave out.
   */
  public Map<SensorId, Map<Quantity, Samples>> bySensor(ContainerId container, Span span) {
    Map<SensorId, Map<Quantity, Samples>> sensors = new LinkedHashMap<>();
    for (Placement placement : register.placementsIn(container)) {
      Span overlap = overlap(placement, span);
      if (overlap.from().isBefore(overlap.to())) {
        sensors.put(placement.sensor(), read(placement.sensor(), overlap, false));
      }
    }
    return sensors;
  }

  /** The instants of all readings of a sensor, wherever it was, ms, ascending. */
  public long[] instants(SensorId sensor, Span span) {
    return Samples.instants(source.read(sensor, span).values());
  }

  /**
   * The time in the spans that the container's readings would cover if figures left no reading out,
   * and that they do not cover now, ms.
   */
  public long leftOutMs(ContainerId container, Quantity quantity, List<Span> spans) {
    long sum = 0;
    for (Span span : spans) {
      sum += samples(container, quantity, span).leftOutMs(span, maxGap.toMillis());
    }
    return sum;
  }

  /** The samples of one quantity; empty if there are none. */
  public Samples samples(ContainerId container, Quantity quantity, Span span) {
    return samples(container, span).getOrDefault(quantity, Samples.EMPTY);
  }

  /** The part of the span in which the sensor was placed; empty if there is none. */
  private static Span overlap(Placement placement, Span wide) {
    Instant until = placement.until();
    Instant end = until == null || until.isAfter(wide.to()) ? wide.to() : until;
    Instant start = placement.from().isAfter(wide.from()) ? placement.from() : wide.from();
    return end.isBefore(start) ? new Span(start, start) : new Span(start, end);
  }

  private Map<Quantity, Samples> read(SensorId sensor, Span overlap, boolean onlyCounted) {
    SensorCorrection correction = register.correction(sensor);
    Exclusions exclusions = register.exclusions(sensor);
    // A query of the store includes the end of its span; a placement excludes its end.
    Span closed = new Span(overlap.from(), overlap.to().minusMillis(1));
    Map<Quantity, Samples> corrected = new EnumMap<>(Quantity.class);
    source
        .read(sensor, closed)
        .forEach(
            (quantity, samples) -> {
              Samples wanted = onlyCounted ? exclusions.counted(quantity, samples) : samples;
              if (!wanted.isEmpty() || wanted.hasLeftOut()) {
                corrected.put(quantity, correction.corrected(quantity, wanted));
              }
            });
    return corrected;
  }

  /**
   * The time span with readings of the container. It starts at the first reading or placement. It
   * ends now, or when the last sensor was removed. Empty if no sensor was ever placed in it.
   */
  public Optional<Span> extent(ContainerId container, Instant now) {
    Instant from = null;
    Instant to = null;
    for (Placement placement : register.placementsIn(container)) {
      Instant start = firstReading(placement, now).orElse(placement.from());
      Instant until = placement.until();
      Instant end = until == null || until.isAfter(now) ? now : until;
      from = from == null || start.isBefore(from) ? start : from;
      to = to == null || end.isAfter(to) ? end : to;
    }
    if (from == null || to == null) {
      return Optional.empty();
    }
    return Optional.of(new Span(from.isAfter(to) ? to : from, to));
  }

  private Optional<Instant> firstReading(Placement placement, Instant now) {
    Instant until = placement.until();
    Instant end = until == null || until.isAfter(now) ? now : until;
    if (end.isBefore(placement.from())) {
      return Optional.empty();
    }
    return source.firstAt(placement.sensor(), new Span(placement.from(), end));
  }

  /**
   * Cuts the span wherever a sensor comes or goes, and at each calibration session and in the
   * middle between two, where the uncertainty because of drift is greatest. In each piece the same
   * sensors are placed, and the error of each is greatest at an end of the piece.
   */
  public List<Span> spansOfEqualSensors(ContainerId container, Span span) {
    TreeSet<Instant> cuts = new TreeSet<>(List.of(span.from(), span.to()));
    for (Placement placement : register.placementsIn(container)) {
      addInside(cuts, span, placement.from());
      if (placement.until() != null) {
        addInside(cuts, span, placement.until());
      }
      register
          .correction(placement.sensor())
          .changes(Quantity.TEMPERATURE)
          .forEach(at -> addInside(cuts, span, at));
    }
    List<Span> pieces = new ArrayList<>();
    Instant from = cuts.pollFirst();
    for (Instant to : cuts) {
      pieces.add(new Span(from, to));
      from = to;
    }
    return pieces;
  }

  private static void addInside(Set<Instant> cuts, Span span, Instant at) {
    if (at.isAfter(span.from()) && at.isBefore(span.to())) {
      cuts.add(at);
    }
  }

  /**
   * The largest error of the temperature because of any sensor placed in the container during the
   * span, ±°C; see {@link SensorCorrection#error}. 0 if there was none.
   *
   * @param aroundC temperature at which the error is wanted, because an uncertain gain matters more
   *     away from the calibration points; NaN if not known
   */
  public double temperatureErrorC(ContainerId container, Span span, double aroundC) {
    return error(container, span, Quantity.TEMPERATURE, Double.isNaN(aroundC) ? USUAL_C : aroundC);
  }

  /**
   * The largest error of a quantity because of any sensor placed in the container during the span,
   * ±, in its unit; see {@link SensorCorrection#error}. 0 if there was none.
   */
  public double error(ContainerId container, Span span, Quantity quantity, double value) {
    double largest = 0;
    for (Placement placement : register.placementsIn(container)) {
      Instant until = placement.until();
      if (placement.from().isBefore(span.to()) && (until == null || until.isAfter(span.from()))) {
        SensorCorrection correction = register.correction(placement.sensor());
        for (Instant at : List.of(span.from(), span.to())) {
          largest = Math.max(largest, correction.error(quantity, at, value));
        }
      }
    }
    return largest;
  }
}
