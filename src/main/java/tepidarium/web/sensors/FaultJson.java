package tepidarium.web.sensors;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.fault.Fault;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.rollup.FaultHistory;
import tepidarium.web.JsonValues;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/** The JSON form of the faults over a span, newest first. */
record FaultJson(Instant from, Instant to, List<FaultOfSensor> faults) {

  record Decided(boolean excluded, Instant at, String by) {
    static @Nullable Decided of(@Nullable FaultDecision decision) {
      return decision == null
          ? null
          : new Decided(decision.excluded(), decision.decidedAt(), decision.by());
    }
  }

  record FaultOfSensor(
      String sensor,
      @Nullable String quantity,
      String kind,
      Instant from,
      Instant to,
      boolean ongoing,
      int readings,
      String reason,
      @Nullable Double low,
      @Nullable Double high,
      @Nullable String otherSensor,
      String state,
      @Nullable String otherState,
      boolean refused,
      @Nullable Decided decided) {
    static FaultOfSensor of(FaultHistory.Listed listed) {
      Fault fault = listed.fault();
      Quantity quantity = fault.quantity();
      SensorId other = fault.other();
      return new FaultOfSensor(
          fault.sensor().name(),
          quantity == null ? null : quantity.key(),
          fault.kind().key(),
          fault.from(),
          fault.to(),
          listed.ongoing(),
          fault.readings(),
          fault.reason(),
          finite(fault.low()),
          finite(fault.high()),
          other == null ? null : other.name(),
          JsonValues.hyphenated(listed.state()),
          listed.otherState() == null ? null : JsonValues.hyphenated(listed.otherState()),
          fault.isRefused(),
          Decided.of(listed.decision()));
    }

    private static @Nullable Double finite(double figure) {
      return Double.isFinite(figure) ? figure : null;
    }
  }

  /** A decision about a stretch; no quantity means all quantities of the sensor. */
  record DecisionRequest(
      @Nullable String quantity,
      @Nullable String kind,
      @Nullable String from,
      @Nullable String to,
      @Nullable Boolean excluded,
      @Nullable String by) {
    FaultDecision decision(SensorId sensor, Visitor visitor, Instant now) {
      if (kind == null || from == null || to == null || excluded == null) {
        throw new InvalidInput("kind, from, to and excluded are needed");
      }
      FaultKind known =
          FaultKind.ofKey(kind)
              .orElseThrow(
                  () ->
                      new InvalidInput(
                          "kind", "must be a kind of fault, not \"" + Params.shown(kind) + '"'));
      if (excluded && !known.hasFaultyReadings()) {
        throw new InvalidInput(
            "kind",
            "must be a kind with faulty readings, not \"%s\"; exclude a fault of another kind"
                .formatted(kind));
      }
      Instant end = Params.instant("to", to);
      if (end.isAfter(now)) {
        throw new InvalidInput(
            "to",
            "must not be later than now (%s); decide again when later readings have arrived"
                .formatted(now),
            InputRule.FUTURE.with(now));
      }
      return new FaultDecision(
          sensor,
          quantity == null ? null : Params.quantity(quantity),
          known,
          Params.instant("from", from),
          end,
          excluded,
          now,
          Params.person(visitor.recordedAs(by)));
    }
  }

  static FaultJson of(Span span, List<FaultHistory.Listed> faults) {
    return new FaultJson(span.from(), span.to(), faults.stream().map(FaultOfSensor::of).toList());
  }
}
