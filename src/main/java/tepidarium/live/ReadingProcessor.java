package tepidarium.live;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Observation;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.SensorSummary;

/**
 * Processes readings after they were stored: updates newest values, heat and silence, and compares
 * each value with its limits. Used by the watch thread alone.
 */
final class ReadingProcessor {
  /** A reading that arrives longer than this after its event time raises no alert. */
  static final Duration MAX_DELAY = Duration.ofHours(1);

  private final Register register;
  private final LatestValues latestValues;
  private final HeatSoFar heatSoFar;
  private final SilenceMonitor silence;
  private final BacklogEvaluator backlog;
  private final AlertBoard board;
  private final LiveListeners listeners;

  ReadingProcessor(
      Register register,
      LatestValues latestValues,
      HeatSoFar heatSoFar,
      SilenceMonitor silence,
      BacklogEvaluator backlog,
      AlertBoard board,
      LiveListeners listeners) {
    this.register = register;
    this.latestValues = latestValues;
    this.heatSoFar = heatSoFar;
    this.silence = silence;
    this.backlog = backlog;
    this.board = board;
    this.listeners = listeners;
  }

  /**
   * Processes a batch that was just stored. If one evaluation fails, the others still run.
   *
   * @param now the present time; later than the arrival by the time in the queue of this thread
   */
  void stored(List<Reading> readings, Instant arrivedAt, Instant now) {
    Set<ContainerId> touched = new HashSet<>();
    Set<SensorId> heard = new HashSet<>();
    RuntimeException failed = null;
    for (Reading reading : readings) {
      latestValues.add(reading);
      heard.add(reading.sensor());
      boolean inTime = Duration.between(reading.at(), arrivedAt).compareTo(MAX_DELAY) <= 0;
      if (inTime) {
        silence.heard(reading.sensor(), arrivedAt);
      } else {
        silence.backlogArrived(reading.sensor(), reading.at(), now);
      }
      ContainerId place = register.placeOf(reading.sensor(), reading.at()).orElse(null);
      if (place != null) {
        heatSoFar.arrived(place, reading.at());
        touched.add(place);
        Container container = register.container(place).orElse(null);
        if (container != null && inTime) {
          try {
            evaluate(container, reading, arrivedAt);
          } catch (RuntimeException e) {
            backlog.addLate(place, reading.at());
            failed = e;
          }
        } else if (container != null) {
          backlog.addLate(place, reading.at());
        }
      }
    }
    listeners.sensorsHeard(heard);
    listeners.containersChanged(touched);
    if (failed != null) {
      throw failed;
    }
  }

  /** Processes readings that were stored earlier but can be queried only now. */
  void readable(List<Reading> readings) {
    Set<ContainerId> touched = new HashSet<>();
    for (Reading reading : readings) {
      latestValues.add(reading);
      silence.heard(reading.sensor(), reading.at());
      register
          .placeOf(reading.sensor(), reading.at())
          .ifPresent(
              place -> {
                heatSoFar.arrived(place, reading.at());
                backlog.addLate(place, reading.at());
                touched.add(place);
              });
    }
    listeners.containersChanged(touched);
  }

  /**
   * Processes readings of an imported file after they were stored. Updates newest values and heat;
   * raises no alert.
   */
  void imported(List<Reading> readings) {
    Map<SensorId, SensorSummary> summaries = new HashMap<>();
    for (Reading reading : readings) {
      summaries.merge(reading.sensor(), SensorSummary.of(reading), SensorSummary::with);
      register
          .placeOf(reading.sensor(), reading.at())
          .ifPresent(place -> heatSoFar.arrived(place, reading.at()));
    }
    summaries.forEach(this::known);
  }

  /** Adds what the readings store knows of a sensor. */
  void known(SensorId sensor, SensorSummary summary) {
    latestValues.add(sensor, summary);
    silence.heard(sensor, summary.last());
    listeners.sensorsHeard(Set.of(sensor));
    register
        .placeOf(sensor, summary.last())
        .ifPresent(place -> listeners.containersChanged(Set.of(place)));
  }

  /**
   * Compares the values of a reading with their limits. {@link PeriodicChecks} evaluates conditions
   * that need several readings.
   */
  private void evaluate(Container container, Reading reading, Instant now) {
    for (AlertKind kind : AlertKind.values()) {
      Quantity quantity = kind.quantity();
      if (quantity == null
          || reading.value(quantity) == null
          || !backlog.counts(container.id(), kind, reading.at())) {
        continue;
      }
      latestValues
          .of(container.id(), quantity, reading.at())
          .filter(value -> value.sensor().equals(reading.sensor()))
          .ifPresent(value -> evaluate(container, kind, value, reading.at(), now));
    }
  }

  private void evaluate(
      Container container, AlertKind kind, LatestValues.Value value, Instant at, Instant now) {
    boolean evaluated =
        value.at().equals(at)
            && board.observe(
                container.id(), container.band(), Observation.value(kind, at, value.value()), now);
    if (!evaluated) {
      backlog.addLate(container.id(), at);
    }
  }
}
