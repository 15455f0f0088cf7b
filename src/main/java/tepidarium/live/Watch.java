package tepidarium.live;

import static java.util.Comparator.naturalOrder;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.LimitState;
import tepidarium.alert.Observation;
import tepidarium.alert.RuleChange;
import tepidarium.alert.Transition;
import tepidarium.alert.TransitionListener;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.SensorSummary;
import tepidarium.series.StoreException;

/**
 * The one thread that watches: it takes in readings that are durable, judges every condition, and
 * owns the alert board. Limits are judged by event time, silence by the clock. A reading much older
 * than its arrival is history and raises nothing. Work waits in a bounded queue; whoever adds to a
 * full one waits.
 */
public final class Watch implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Watch.class);

  /** A reading that arrives later than this after its event time is history, not news. */
  private static final Duration NEWS = Duration.ofHours(1);

  /**
   * So far ahead of the clock may a sensor be; what lies further ahead is from before the clock was
   * set back.
   */
  private static final Duration MOST_AHEAD = Duration.ofMinutes(5);

  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);

  /**
   * How silence is judged.
   *
   * @param after how long a sensor may say nothing, where no rule of the container says otherwise
   * @param grace how long after the service began to listen nobody is called silent
   */
  public record Silence(Duration after, Duration grace) {}

  private final Register register;
  private final Newest newest;
  private final HeatSoFar heatSoFar;
  private final AlertRules rules;
  private final AlertBoard board;
  private final Replay replay;
  private final Signs signs;
  private final Silence silence;
  private final Duration tick;
  private final Clock clock;
  private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();
  private final List<TransitionListener> followers = new CopyOnWriteArrayList<>();
  private final Map<SensorId, Instant> lastNews = new ConcurrentHashMap<>();
  private final BlockingQueue<Runnable> work = new ArrayBlockingQueue<>(256);
  private final Thread thread;
  private @Nullable Instant listeningSince;
  private volatile boolean stopping;

  /**
   * Starts the thread that judges conditions.
   *
   * @param tick how often it judges what changes by time alone, such as silence
   */
  public Watch(
      Register register,
      Newest newest,
      HeatSoFar heatSoFar,
      CalibratedReadings calibrated,
      AlertStore alerts,
      AlertRules rules,
      Silence silence,
      Duration tick,
      Clock clock) {
    this.register = register;
    this.newest = newest;
    this.heatSoFar = heatSoFar;
    this.silence = silence;
    this.tick = tick;
    this.clock = clock;
    this.rules = rules;
    this.board = new AlertBoard(alerts, rules, calibrated.maxGap(), this::tellTransition);
    this.replay = new Replay(register, calibrated, rules, board);
    this.signs = new Signs(register, calibrated, rules, board);
    newest
        .sensors()
        .forEach(
            sensor -> newest.of(sensor).ifPresent(known -> lastNews.put(sensor, known.last())));
    register.listen(touched -> add(() -> corrected(touched)));
    this.thread = new Thread(this::run, "watch");
    thread.setDaemon(true);
    thread.start();
  }

  public void listen(LiveListener listener) {
    listeners.add(listener);
  }

  /** Told of every transition of an alert, as {@link TransitionListener} says. */
  public void follow(TransitionListener follower) {
    followers.add(follower);
  }

  /**
   * Judges readings that were stored before this service started and perhaps not judged then. To be
   * called once, after those who listen have said so and before readings come.
   */
  public void catchUp() {
    add(
        () -> {
          Instant now = clock.instant();
          Instant newestStored =
              newest.sensors().stream()
                  .flatMap(sensor -> newest.of(sensor).stream())
                  .map(SensorSummary::last)
                  .filter(at -> !at.isAfter(now))
                  .max(naturalOrder())
                  .orElse(now);
          try {
            replay.catchUp(newestStored.minus(NEWS), now);
          } catch (StoreException e) {
            LOG.warn("{}; limits are judged from the next readings on", e.getMessage());
          }
        });
  }

  /** Readings that have become durable. */
  public void stored(List<Reading> readings, Instant arrivedAt) {
    add(() -> takeIn(readings, arrivedAt));
  }

  /**
   * Readings, durable for some time, that can only now be read back: what was added up without them
   * is added up again.
   */
  public void readable(List<Reading> readings) {
    add(() -> readBack(readings));
  }

  /** What the readings store had before this service started, where it was away then. */
  public void learn(Map<SensorId, SensorSummary> heard) {
    add(() -> heard.forEach(this::learn));
  }

  private void learn(SensorId sensor, SensorSummary known) {
    newest.add(sensor, known);
    noteHeard(sensor, known.last());
    listeners.forEach(listener -> listener.sensorHeard(sensor));
    register.placeOf(sensor, known.last()).ifPresent(place -> tellContainers(Set.of(place)));
  }

  private void readBack(List<Reading> readings) {
    Set<ContainerId> touched = new HashSet<>();
    for (Reading reading : readings) {
      newest.add(reading);
      noteHeard(reading.sensor(), reading.at());
      register
          .placeOf(reading.sensor(), reading.at())
          .ifPresent(
              place -> {
                heatSoFar.arrived(place, reading.at());
                replay.cameLate(place, reading.at());
                touched.add(place);
              });
    }
    tellContainers(touched);
  }

  /** The link to the broker came up or went down: while it is down, silence says nothing. */
  public void linkChanged(boolean up) {
    add(() -> listeningSince = up ? clock.instant() : null);
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
    return ask(onBoard -> onBoard.acknowledge(id, by, clock.instant()));
  }

  /**
   * Puts an open alert aside for a time.
   *
   * @param reason in that person's words; null where none was given
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Duration time, String by, @Nullable String reason) {
    return ask(
        onBoard -> {
          Instant now = clock.instant();
          return onBoard.shelve(id, now.plus(time), by, reason, now);
        });
  }

  /**
   * Takes an open alert back from the shelf.
   *
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert unshelve(long id, String by) {
    return ask(onBoard -> onBoard.unshelve(id, by, clock.instant()));
  }

  /**
   * Changes what holds for kinds of alert in one container; see {@link AlertBoard#change}. From the
   * next readings on.
   */
  public void change(
      ContainerId container, Map<AlertKind, RuleChange> changes, String by, @Nullable String why) {
    ask(
        onBoard -> {
          onBoard.change(container, changes, by, why, clock.instant());
          tellContainers(Set.of(container));
          return changes;
        });
  }

  private <T> T ask(Function<AlertBoard, T> change) {
    CompletableFuture<T> answer = new CompletableFuture<>();
    add(
        () -> {
          try {
            answer.complete(change.apply(board));
          } catch (RuntimeException e) {
            answer.completeExceptionally(e);
          }
        });
    try {
      return answer.get(ANSWER_LIMIT.toMillis(), TimeUnit.MILLISECONDS);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    } catch (TimeoutException e) {
      throw new IllegalStateException("the watching thread did not answer in time", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
  }

  private void add(Runnable job) {
    try {
      work.put(job);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run() {
    long nextTick = System.nanoTime();
    while (!stopping) {
      try {
        Runnable job = work.poll(nextTick - System.nanoTime(), TimeUnit.NANOSECONDS);
        if (job != null) {
          job.run();
        }
        if (System.nanoTime() - nextTick >= 0) {
          nextTick = System.nanoTime() + tick.toNanos();
          tick(clock.instant());
        }
      } catch (InterruptedException e) {
        break;
      } catch (RuntimeException | Error e) {
        // One bad case must not end the watch over all others, nor hold up whoever adds to it.
        LOG.error("the watch met an unexpected failure and goes on", e);
      }
    }
    finish();
  }

  /** What is still waiting is judged, so that the next start has less to catch up with. */
  private void finish() {
    try {
      for (Runnable job = work.poll(); job != null; job = work.poll()) {
        job.run();
      }
      board.save();
    } catch (RuntimeException e) {
      LOG.warn("the watch could not finish, and catches up at the next start: {}", e.toString());
    }
  }

  private void takeIn(List<Reading> readings, Instant arrivedAt) {
    Set<ContainerId> touched = new HashSet<>();
    Set<SensorId> heard = new HashSet<>();
    RuntimeException failed = null;
    for (Reading reading : readings) {
      newest.add(reading);
      heard.add(reading.sensor());
      boolean news = Duration.between(reading.at(), arrivedAt).compareTo(NEWS) <= 0;
      noteHeard(reading.sensor(), news ? arrivedAt : reading.at());
      ContainerId place = register.placeOf(reading.sensor(), reading.at()).orElse(null);
      if (place != null) {
        heatSoFar.arrived(place, reading.at());
        touched.add(place);
        Container container = register.container(place).orElse(null);
        if (container != null && news) {
          try {
            judge(container, reading, arrivedAt);
          } catch (RuntimeException e) {
            // The others are taken in all the same; this one is judged with what comes late.
            replay.cameLate(place, reading.at());
            failed = e;
          }
        } else if (container != null) {
          replay.cameLate(place, reading.at());
        }
      }
    }
    heard.forEach(sensor -> listeners.forEach(listener -> listener.sensorHeard(sensor)));
    tellContainers(touched);
    if (failed != null) {
      throw failed;
    }
  }

  private void noteHeard(SensorId sensor, Instant at) {
    lastNews.merge(sensor, at, (old, fresh) -> fresh.isAfter(old) ? fresh : old);
  }

  /**
   * Holds the values of a reading against their limits. What is worked out from several readings is
   * the part of {@link Signs}.
   */
  private void judge(Container container, Reading reading, Instant now) {
    for (AlertKind kind : AlertKind.values()) {
      Quantity quantity = kind.quantity();
      if (quantity == null
          || reading.value(quantity) == null
          || !replay.counts(container.id(), kind, reading.at())) {
        continue;
      }
      newest
          .of(container.id(), quantity, reading.at())
          .filter(value -> value.sensor().equals(reading.sensor()))
          .ifPresent(value -> judge(container, kind, value, reading.at(), now));
    }
  }

  private void judge(
      Container container, AlertKind kind, Newest.Value value, Instant at, Instant now) {
    boolean judged =
        value.at().equals(at)
            && board.observe(
                container.id(), container.band(), Observation.value(kind, at, value.value()), now);
    if (!judged) {
      replay.cameLate(container.id(), at);
    }
  }

  private void tick(Instant now) {
    forgetFuture(now);
    for (Container container : register.containers()) {
      judgeSilence(container, now);
    }
    board.tick(now);
    try {
      replay.markLate(now);
      signs.look(now);
    } catch (StoreException e) {
      LOG.debug("stored readings are looked at again when the store answers", e);
    }
  }

  /** After the clock was set back, silence counts from now, and limits from what comes now. */
  private void forgetFuture(Instant now) {
    Instant since = listeningSince;
    if (since != null && since.isAfter(now)) {
      listeningSince = now;
    }
    lastNews.replaceAll((sensor, at) -> at.isAfter(now) ? now : at);
    newest.forgetAfter(now.plus(MOST_AHEAD));
    board.forgetAfter(now.plus(MOST_AHEAD));
  }

  private void judgeSilence(Container container, Instant now) {
    Instant since = listeningSince;
    List<Placement> placed =
        register.placementsIn(container.id()).stream().filter(p -> p.holdsAt(now)).toList();
    if (placed.isEmpty()) {
      board.unobserved(container.id(), now);
      return;
    }
    if (since == null) {
      return;
    }
    Duration after = silentAfter(container);
    Instant lastHeard =
        placed.stream()
            .map(
                placement ->
                    later(lastNews.getOrDefault(placement.sensor(), Instant.MIN), placement.from()))
            .min(naturalOrder())
            .get();
    boolean silent = Duration.between(lastHeard, now).compareTo(after) > 0;
    if (silent && Duration.between(since, now).compareTo(silence.grace()) <= 0) {
      // It has not had its time to speak since this service began to listen: neither news of
      // silence, nor a sign that an earlier one is over.
      return;
    }
    board.observeSilence(container.id(), container.band(), now, lastHeard);
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  private Duration silentAfter(Container container) {
    AlertKey key = new AlertKey(container.id(), AlertKind.SILENT);
    double minutes = rules.effective(key, container.band()).rule().limit().value();
    return Duration.ofMillis(Math.round(minutes * 60_000));
  }

  private void corrected(Set<ContainerId> touched) {
    for (ContainerId id : touched) {
      heatSoFar.forget(id);
      if (register.container(id).isEmpty()) {
        board.forget(id);
      }
    }
    tellContainers(touched);
  }

  private void tellContainers(Set<ContainerId> touched) {
    for (ContainerId id : touched) {
      listeners.forEach(listener -> listener.containerChanged(id));
    }
  }

  private void tellTransition(@Nullable Alert before, Alert after, Transition transition) {
    for (TransitionListener follower : followers) {
      try {
        follower.changed(before, after, transition);
      } catch (RuntimeException e) {
        // The transition is recorded; whoever failed can ask for it again.
        LOG.error("who follows the alerts met an unexpected failure", e);
      }
    }
    if (!after.foundLate()) {
      listeners.forEach(listener -> listener.alertChanged(after));
      listeners.forEach(listener -> listener.containerChanged(after.container()));
    }
  }

  @Override
  public void close() {
    stopping = true;
    thread.interrupt();
    try {
      thread.join(ANSWER_LIMIT.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
