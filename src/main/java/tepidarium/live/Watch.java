package tepidarium.live;

import static java.util.Comparator.naturalOrder;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.LimitState;
import tepidarium.alert.RuleChange;
import tepidarium.alert.TransitionListener;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;

/**
 * Evaluates all alert conditions, and executes commands on alerts, on one thread of its own. It
 * receives readings after they were stored. Limits are evaluated by event time, silence by the
 * clock. The public methods are thread-safe. They add a job to the queue of the thread, and wait
 * while that is full.
 */
public final class Watch implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Watch.class);

  /** Values further ahead of the clock than this were measured before the clock was set back. */
  private static final Duration MAX_AHEAD = Duration.ofMinutes(5);

  private final Register register;
  private final LatestValues latestValues;
  private final HeatSoFar heatSoFar;
  private final AlertBoard board;
  private final BacklogEvaluator backlog;
  private final PeriodicChecks checks;
  private final SilenceMonitor silence;
  private final ReadingProcessor readings;
  private final Clock clock;
  private final LiveListeners listeners = new LiveListeners();
  private final WatchThread thread;

  /**
   * Starts the thread.
   *
   * @param silentGrace time after the link came up in which no sensor is reported as silent
   * @param period how often conditions that depend on time alone, such as silence, are evaluated
   */
  public Watch(
      Register register,
      LatestValues latestValues,
      HeatSoFar heatSoFar,
      CalibratedReadings calibrated,
      AlertStore alerts,
      AlertRules rules,
      Duration silentGrace,
      Duration period,
      Clock clock) {
    this.register = register;
    this.latestValues = latestValues;
    this.heatSoFar = heatSoFar;
    this.clock = clock;
    this.board = new AlertBoard(alerts, rules, calibrated.maxGap(), listeners::alertChanged);
    this.backlog = new BacklogEvaluator(register, calibrated, rules, board);
    this.checks = new PeriodicChecks(register, calibrated, rules, board);
    UsualIntervals intervals = new UsualIntervals(calibrated::instants, System::nanoTime);
    this.silence = new SilenceMonitor(register, rules, board, intervals, silentGrace);
    this.readings =
        new ReadingProcessor(register, latestValues, heatSoFar, silence, backlog, board, listeners);
    latestValues
        .sensors()
        .forEach(
            sensor ->
                latestValues.of(sensor).ifPresent(known -> silence.heard(sensor, known.last())));
    this.thread = new WatchThread(period, () -> tick(clock.instant()), board::save);
    register.listen(
        touched -> {
          Instant now = clock.instant();
          thread.add(() -> corrected(touched, now));
        });
    thread.start();
  }

  public void listen(LiveListener listener) {
    listeners.add(listener);
  }

  /** Adds a listener for every transition of an alert; see {@link TransitionListener}. */
  public void follow(TransitionListener listener) {
    listeners.add(listener);
  }

  /**
   * Evaluates readings that an earlier process stored but did not evaluate. Call it once, after all
   * listeners were added and before the first new reading.
   */
  public void catchUp() {
    thread.add(
        () -> {
          Instant now = clock.instant();
          Instant newestStored =
              latestValues.sensors().stream()
                  .flatMap(sensor -> latestValues.of(sensor).stream())
                  .map(SensorSummary::last)
                  .filter(at -> !at.isAfter(now))
                  .max(naturalOrder())
                  .orElse(now);
          try {
            backlog.catchUp(newestStored.minus(ReadingProcessor.MAX_DELAY), now);
          } catch (StoreException e) {
            LOG.warn(
                "{}; limits are not evaluated for readings stored before this start",
                e.getMessage());
          }
        });
  }

  /** Adds readings that were just stored. */
  public void stored(List<Reading> batch, Instant arrivedAt) {
    thread.add(() -> readings.stored(batch, arrivedAt, clock.instant()));
  }

  /** Adds readings that were stored earlier but can be queried only now. */
  public void readable(List<Reading> batch) {
    thread.add(() -> readings.readable(batch));
  }

  /** Adds readings of an imported file that were just stored. */
  public void imported(List<Reading> batch) {
    thread.add(() -> readings.imported(batch));
  }

  /**
   * Adds the summaries of a readings store that could not be reached at start. Call it whenever the
   * store begins to answer: a sensor that was not heard yet is called silent only after that.
   *
   * @param summaries empty if the watch was created with them
   */
  public void learn(Map<SensorId, SensorSummary> summaries) {
    thread.add(
        () -> {
          summaries.forEach(readings::known);
          silence.storeAnswered();
        });
  }

  /** Reports that the link to the broker came up or went down. */
  public void linkChanged(boolean up) {
    thread.add(
        () -> {
          if (up) {
            silence.linkUp(clock.instant());
          } else {
            silence.linkDown();
          }
        });
  }

  public List<Alert> openAlerts() {
    return board.open();
  }

  public List<Alert> openAlerts(ContainerId container) {
    return board.open(container);
  }

  public Map<AlertKind, LimitState> states(ContainerId container) {
    return board.states(container);
  }

  /**
   * Acknowledges an open alert.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert acknowledge(long id, String by) {
    return thread.ask(() -> board.acknowledge(id, by, clock.instant()));
  }

  /**
   * Shelves an open alert for a time.
   *
   * @param reason in that person's words; null if none was given
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Duration time, String by, @Nullable String reason) {
    return thread.ask(
        () -> {
          Instant now = clock.instant();
          return board.shelve(id, now.plus(time), by, reason, now);
        });
  }

  /**
   * Ends the shelving of an open alert.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert unshelve(long id, String by) {
    return thread.ask(() -> board.unshelve(id, by, clock.instant()));
  }

  /**
   * Changes the alert rules of one container; see {@link AlertBoard#change}. The change applies
   * from the next readings on.
   */
  public void change(
      ContainerId container, Map<AlertKind, RuleChange> changes, String by, @Nullable String why) {
    thread.ask(
        () -> {
          board.change(container, changes, by, why, clock.instant());
          listeners.containersChanged(Set.of(container));
          return changes;
        });
  }

  private void tick(Instant now) {
    silence.clampToNow(now);
    latestValues.forgetAfter(now.plus(MAX_AHEAD));
    board.forgetAfter(now.plus(MAX_AHEAD));
    silence.check(now);
    board.tick(now);
    try {
      backlog.markLate(now);
      checks.run(now);
    } catch (StoreException e) {
      LOG.debug("the readings store does not answer; the next tick tries again", e);
    }
  }

  private void corrected(Set<ContainerId> touched, Instant now) {
    for (ContainerId id : touched) {
      heatSoFar.invalidate(id);
      silence.changed(id, now);
      if (register.container(id).isEmpty()) {
        board.forget(id);
      }
    }
    listeners.containersChanged(touched);
  }

  /** Evaluates what is still in the queue, saves the conditions, and stops the thread. */
  @Override
  public void close() {
    thread.close();
  }
}
