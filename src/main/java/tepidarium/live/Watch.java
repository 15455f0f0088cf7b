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
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertStore;
import tepidarium.alert.LimitState;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.series.Heard;

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

  private static final Duration TICK = Duration.ofSeconds(5);
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);

  /**
   * How silence is judged.
   *
   * @param after how long a sensor may say nothing
   * @param grace how long after the service began to listen nobody is called silent
   */
  public record Silence(Duration after, Duration grace) {}

  private final Register register;
  private final Newest newest;
  private final HeatSoFar heatSoFar;
  private final AlertBoard board;
  private final Silence silence;
  private final Clock clock;
  private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();
  private final Map<SensorId, Instant> lastNews = new ConcurrentHashMap<>();
  private final BlockingQueue<Runnable> work = new ArrayBlockingQueue<>(256);
  private final Thread thread;
  private @Nullable Instant listeningSince;
  private volatile boolean stopping;

  public Watch(
      Register register,
      Newest newest,
      HeatSoFar heatSoFar,
      AlertStore alerts,
      Duration maxGap,
      Silence silence,
      Clock clock) {
    this.register = register;
    this.newest = newest;
    this.heatSoFar = heatSoFar;
    this.silence = silence;
    this.clock = clock;
    this.board = new AlertBoard(alerts, maxGap, silence.after(), this::tellAlert);
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
  public void learn(Map<SensorId, Heard> heard) {
    add(() -> heard.forEach(this::learn));
  }

  private void learn(SensorId sensor, Heard known) {
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
   * @throws NoSuchElementException when no open alert has this id
   */
  public Alert shelve(long id, Duration time) {
    return ask(onBoard -> onBoard.shelve(id, clock.instant().plus(time)));
  }

  private Alert ask(Function<AlertBoard, Alert> change) {
    CompletableFuture<Alert> answer = new CompletableFuture<>();
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
          nextTick = System.nanoTime() + TICK.toNanos();
          tick(clock.instant());
        }
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        // One bad case must not end the watch over all others.
        LOG.error("the watch met an unexpected failure and goes on", e);
      }
    }
  }

  private void takeIn(List<Reading> readings, Instant arrivedAt) {
    Set<ContainerId> touched = new HashSet<>();
    Set<SensorId> heard = new HashSet<>();
    for (Reading reading : readings) {
      newest.add(reading);
      heard.add(reading.sensor());
      boolean news = Duration.between(reading.at(), arrivedAt).compareTo(NEWS) <= 0;
      noteHeard(reading.sensor(), news ? arrivedAt : reading.at());
      ContainerId place = register.placeOf(reading.sensor(), reading.at()).orElse(null);
      if (place != null) {
        heatSoFar.arrived(place, reading.at());
        touched.add(place);
        Container container = news ? register.container(place).orElse(null) : null;
        if (container != null) {
          judge(container, reading);
        }
      }
    }
    heard.forEach(sensor -> listeners.forEach(listener -> listener.sensorHeard(sensor)));
    tellContainers(touched);
  }

  private void noteHeard(SensorId sensor, Instant at) {
    lastNews.merge(sensor, at, (old, fresh) -> fresh.isAfter(old) ? fresh : old);
  }

  private void judge(Container container, Reading reading) {
    boolean open = register.openingAt(container.id(), reading.at()).isPresent();
    for (AlertKind kind : AlertKind.values()) {
      Quantity quantity = kind.quantity();
      if (quantity == null || reading.value(quantity) == null) {
        continue;
      }
      if (open && kind.expectedWhileOpen()) {
        continue;
      }
      newest
          .of(container.id(), quantity, reading.at())
          .filter(value -> value.sensor().equals(reading.sensor()))
          .filter(value -> value.at().equals(reading.at()))
          .ifPresent(
              value ->
                  board.observe(container.id(), kind, container.band(), value.at(), value.value()));
    }
  }

  private void tick(Instant now) {
    forgetFuture(now);
    for (Container container : register.containers()) {
      judgeSilence(container, now);
    }
    board.tick(now);
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
    Instant lastHeard =
        placed.stream()
            .map(placement -> lastHeard(placement, since, now))
            .min(naturalOrder())
            .get();
    board.observeSilence(container.id(), container.band(), now, lastHeard);
  }

  /**
   * When the placed sensor was last heard. One that has not had its time to speak since it was
   * placed, or since the service began to listen, counts as heard until then.
   */
  private Instant lastHeard(Placement placement, Instant listeningSince, Instant now) {
    Instant last = lastNews.getOrDefault(placement.sensor(), placement.from());
    Instant excused = listeningSince.plus(silence.grace()).minus(silence.after());
    Instant counted = Stream.of(last, excused, placement.from()).max(naturalOrder()).get();
    boolean silent = Duration.between(counted, now).compareTo(silence.after()) > 0;
    return silent ? last : counted;
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

  private void tellAlert(Alert alert) {
    listeners.forEach(listener -> listener.alertChanged(alert));
    listeners.forEach(listener -> listener.containerChanged(alert.container()));
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
