package tepidarium.rollup;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.fault.DayTrends;
import tepidarium.fault.DriftRule;
import tepidarium.fault.Exclusions;
import tepidarium.fault.Fault;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.fault.Faults;
import tepidarium.fault.SensorDay;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * Answers which faults sensors had, and what figures left out because of them. Past days come from
 * {@link SensorDays}; the last two days are searched on each request. Thread-safe.
 */
public final class FaultHistory {
  private static final double MS_PER_HOUR = 3_600_000.0;

  /**
   * A fault and what figures do with it.
   *
   * @param ongoing whether it was seen within the last hour
   * @param otherState what figures do with the readings of the other sensor of a comparison; null
   *     where there is none
   * @param decision the newest decision about it; null if there is none
   */
  public record Listed(
      Fault fault,
      boolean ongoing,
      Exclusions.State state,
      Exclusions.@Nullable State otherState,
      @Nullable FaultDecision decision) {
    /** Whether figures leave out readings of one of the sensors. */
    boolean isLeftOut() {
      return state != Exclusions.State.COUNTED
          || (otherState != null && otherState != Exclusions.State.COUNTED);
    }
  }

  private final SensorDays days;
  private final ArrivalFaultStore arrivals;
  private final Register register;
  private final CalibratedReadings calibrated;
  private final Clock clock;

  public FaultHistory(
      SensorDays days,
      ArrivalFaultStore arrivals,
      Register register,
      CalibratedReadings calibrated,
      Clock clock) {
    this.days = days;
    this.arrivals = arrivals;
    this.register = register;
    this.calibrated = calibrated;
    this.clock = clock;
  }

  /** The faults of a sensor that touch the span, newest first. */
  public List<Listed> ofSensor(SensorId sensor, Span span) {
    Span past = untilNow(span);
    List<Fault> faults = new ArrayList<>(found(sensor, past));
    for (ContainerId place : placesIn(sensor, past)) {
      drift(place, past).stream()
          .filter(fault -> fault.sensor().equals(sensor) || sensor.equals(fault.other()))
          .forEach(faults::add);
    }
    return listed(faults);
  }

  /** The faults of the sensors in a container or the room that touch the span, newest first. */
  public List<Listed> ofContainer(ContainerId container, Span span) {
    Span past = untilNow(span);
    List<Fault> faults = new ArrayList<>(drift(container, past));
    for (Placement placement : register.placementsIn(container)) {
      Span placed = overlap(placement, past);
      if (placed.fromMs() < placed.toMs()) {
        faults.addAll(found(placement.sensor(), placed));
      }
    }
    return listed(faults);
  }

  private Span untilNow(Span span) {
    Instant now = clock.instant();
    return span.to().isAfter(now)
        ? new Span(span.from().isAfter(now) ? now : span.from(), now)
        : span;
  }

  private List<ContainerId> placesIn(SensorId sensor, Span span) {
    return register.placementsOf(sensor).stream()
        .filter(placement -> overlap(placement, span).length().toMillis() > 0)
        .map(Placement::container)
        .distinct()
        .toList();
  }

  private static Span overlap(Placement placement, Span span) {
    Instant until = placement.until();
    return new Span(placement.from(), until == null ? later(placement.from(), span.to()) : until)
        .within(span);
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  /** The faults of one sensor by itself. */
  private List<Fault> found(SensorId sensor, Span span) {
    List<SensorDay> searched = days(sensor, span, DayTrends.DAYS_BEFORE);
    List<Fault> all = new ArrayList<>(DayTrends.of(searched));
    searched.forEach(day -> all.addAll(day.faults()));
    return Stream.concat(Faults.merged(all).stream(), arrivals.of(sensor, span).stream())
        .filter(fault -> fault.touches(span))
        .toList();
  }

  private List<SensorDay> days(SensorId sensor, Span span, int before) {
    return days.days(sensor, SensorDay.dayOf(span.fromMs()) - before, SensorDay.dayOf(span.toMs()));
  }

  /** Sensors of one container that differ from each other. */
  private List<Fault> drift(ContainerId container, Span span) {
    Map<SensorId, List<SensorDay>> placed = new LinkedHashMap<>();
    List<Placement> placements = register.placementsIn(container);
    if (placements.stream().map(Placement::sensor).distinct().count() < 2) {
      return List.of();
    }
    for (Placement placement : placements) {
      Span overlap = overlap(placement, span);
      if (overlap.fromMs() < overlap.toMs()) {
        List<SensorDay> whole =
            days(placement.sensor(), overlap, 1).stream()
                .filter(day -> overlap(placement, day.span()).equals(day.span()) || isToday(day))
                .toList();
        placed.computeIfAbsent(placement.sensor(), any -> new ArrayList<>()).addAll(whole);
      }
    }
    DriftRule rule = new DriftRule(this::corrected, this::error);
    List<SensorId> sensors = List.copyOf(placed.keySet());
    List<Fault> faults = new ArrayList<>();
    for (int i = 0; i < sensors.size(); i++) {
      for (int j = i + 1; j < sensors.size(); j++) {
        faults.addAll(rule.of(days(placed, sensors.get(i)), days(placed, sensors.get(j))));
      }
    }
    return Faults.merged(faults).stream().filter(fault -> fault.touches(span)).toList();
  }

  private static List<SensorDay> days(Map<SensorId, List<SensorDay>> placed, SensorId sensor) {
    return placed.getOrDefault(sensor, List.of());
  }

  private boolean isToday(SensorDay day) {
    return day.span().contains(clock.instant());
  }

  private double corrected(SensorDay day, Quantity quantity, int hour, double raw) {
    return register.correction(day.sensor()).corrected(quantity, day.hour(hour), raw);
  }

  private double error(SensorDay day, Quantity quantity, double value) {
    return register.correction(day.sensor()).error(quantity, day.span().from(), value);
  }

  private List<Listed> listed(Collection<Fault> faults) {
    Instant now = clock.instant();
    return faults.stream()
        .distinct()
        .map(fault -> fault.until(now))
        .sorted(Comparator.comparing(Fault::from).reversed())
        .map(fault -> listed(fault, now))
        .toList();
  }

  private Listed listed(Fault fault, Instant now) {
    Exclusions exclusions = register.exclusions(fault.sensor());
    boolean ongoing = !fault.to().isBefore(now.minus(Faults.JOIN));
    Exclusions.State state =
        fault.isRefused() ? Exclusions.State.EXCLUDED : exclusions.state(fault);
    SensorId other = fault.other();
    Exclusions.State otherState = other == null ? null : register.exclusions(other).state(fault);
    return new Listed(fault, ongoing, state, otherState, exclusions.decision(fault));
  }

  /**
   * What the figures of a container left out over a span, by quantity; no entry for a quantity of
   * which nothing was left out.
   */
  public List<LeftOut> leftOut(ContainerId container, Span span, Quantity... quantities) {
    List<Fault> excluded =
        ofContainer(container, span).stream().filter(Listed::isLeftOut).map(Listed::fault).toList();
    return Stream.of(quantities)
        .map(quantity -> leftOut(container, span, quantity, excluded))
        .filter(Objects::nonNull)
        .toList();
  }

  private @Nullable LeftOut leftOut(
      ContainerId container, Span span, Quantity quantity, List<Fault> excluded) {
    List<Fault> own =
        excluded.stream()
            .filter(fault -> fault.quantity() == null || fault.quantity() == quantity)
            .toList();
    if (own.isEmpty()) {
      return null;
    }
    List<FaultKind> kinds = own.stream().map(Fault::kind).distinct().sorted().toList();
    double hours = calibrated.leftOutMs(container, quantity, windows(own, span)) / MS_PER_HOUR;
    return new LeftOut(quantity, hours, own.size(), kinds);
  }

  /** The parts of the span that the stretches can change, in order of time, without overlaps. */
  private List<Span> windows(List<Fault> faults, Span span) {
    List<Span> windows = new ArrayList<>();
    faults.stream()
        .map(
            fault ->
                new Span(
                        fault.from().minus(calibrated.maxGap()),
                        fault.to().plus(calibrated.maxGap()))
                    .within(span))
        .sorted(Comparator.comparing(Span::from))
        .forEach(
            next -> {
              int last = windows.size() - 1;
              if (last >= 0 && !next.from().isAfter(windows.get(last).to())) {
                windows.set(
                    last,
                    new Span(windows.get(last).from(), later(windows.get(last).to(), next.to())));
              } else {
                windows.add(next);
              }
            });
    return windows;
  }
}
