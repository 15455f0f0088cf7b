package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.LimitState;
import tepidarium.alert.Observation;
import tepidarium.alert.PastExcursion;
import tepidarium.alert.Rule;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Evaluates stored readings that were not evaluated on arrival: those that an earlier process left,
 * and those that arrived late. A late reading raises no alert; an excursion that it shows is added
 * to the alert history. Used by the watch thread alone.
 */
final class BacklogEvaluator {
  private final Register register;
  private final CalibratedReadings calibrated;
  private final AlertRules rules;
  private final AlertBoard board;
  private final Map<ContainerId, Span> late = new HashMap<>();

  BacklogEvaluator(
      Register register, CalibratedReadings calibrated, AlertRules rules, AlertBoard board) {
    this.register = register;
    this.calibrated = calibrated;
    this.rules = rules;
    this.board = board;
  }

  /**
   * Evaluates the readings of all containers from an instant to now. A reading that was evaluated
   * before changes nothing.
   */
  void catchUp(Instant from, Instant now) {
    Span span = new Span(from, now.isBefore(from) ? from : now);
    for (Container container : register.containers()) {
      Map<Quantity, Samples> samples = calibrated.samples(container.id(), span);
      for (AlertKind kind : AlertKind.values()) {
        Samples values = samplesOf(kind, samples);
        for (int i = values.indexFrom(from.toEpochMilli()); i < values.size(); i++) {
          Instant at = Instant.ofEpochMilli(values.atMs(i));
          if (counts(container.id(), kind, at)) {
            Observation observation = Observation.value(kind, at, values.value(i));
            board.observe(container.id(), container.band(), observation, now);
          }
        }
      }
    }
  }

  private static Samples samplesOf(AlertKind kind, Map<Quantity, Samples> samples) {
    Quantity quantity = kind.quantity();
    return quantity == null ? Samples.EMPTY : samples.getOrDefault(quantity, Samples.EMPTY);
  }

  /** False for a kind of alert that an open container causes, while the container is open. */
  boolean counts(ContainerId container, AlertKind kind, Instant at) {
    return !kind.expectedWhileOpen() || register.openingAt(container, at).isEmpty();
  }

  /** Adds a reading that could not be evaluated on arrival. */
  void addLate(ContainerId container, Instant at) {
    late.merge(container, new Span(at, at), BacklogEvaluator::both);
  }

  private static Span both(Span a, Span b) {
    Instant from = a.from().isBefore(b.from()) ? a.from() : b.from();
    return new Span(from, a.to().isAfter(b.to()) ? a.to() : b.to());
  }

  /** Adds the excursions that late readings show to the alert history. */
  void markLate(Instant now) {
    for (Map.Entry<ContainerId, Span> entry : Map.copyOf(late).entrySet()) {
      Container container = register.container(entry.getKey()).orElse(null);
      Span rest = container == null ? null : markLate(container, entry.getValue(), now);
      if (rest == null) {
        late.remove(entry.getKey());
      } else {
        late.put(entry.getKey(), rest);
      }
    }
  }

  /** Time span to evaluate again because an excursion in it is still open; null if none. */
  private @Nullable Span markLate(Container container, Span span, Instant now) {
    Map<AlertKind, LimitState> states = board.states(container.id());
    Map<Quantity, Samples> samples = calibrated.samples(container.id(), extended(container, span));
    Instant openSince = null;
    for (AlertKind kind : AlertKind.values()) {
      Samples values = samplesOf(kind, samples);
      AlertKey key = new AlertKey(container.id(), kind);
      for (PastExcursion past : excursions(container, key, values, span)) {
        boolean ended = past.endedAt().toEpochMilli() < values.lastMs();
        if (ended || states.get(kind) != LimitState.OUTSIDE) {
          board.foundLate(key, container.band(), past, span, now);
        } else {
          boolean first = openSince == null || past.since().isBefore(openSince);
          openSince = first ? past.since() : openSince;
        }
      }
    }
    if (openSince == null) {
      return null;
    }
    Instant from = openSince.isBefore(span.from()) ? span.from() : openSince;
    return new Span(from.isAfter(span.to()) ? span.to() : from, span.to());
  }

  private List<PastExcursion> excursions(
      Container container, AlertKey key, Samples values, Span span) {
    Rule rule = rules.effective(key, container.band()).rule();
    return PastExcursion.in(
            values, rule, calibrated.maxGap(), at -> counts(container.id(), key.kind(), at))
        .stream()
        .filter(past -> !past.since().isAfter(span.to()) && !past.endedAt().isBefore(span.from()))
        .toList();
  }

  /** The span, extended on both sides by the longest gap plus the longest delays of a rule. */
  private Span extended(Container container, Span span) {
    Duration reach = calibrated.maxGap();
    for (AlertKind kind : AlertKind.values()) {
      Rule rule = rules.effective(new AlertKey(container.id(), kind), container.band()).rule();
      Duration delays = calibrated.maxGap().plus(rule.onDelay()).plus(rule.offDelay());
      reach = delays.compareTo(reach) > 0 ? delays : reach;
    }
    return new Span(span.from().minus(reach), span.to().plus(reach));
  }
}
