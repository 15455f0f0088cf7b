package tepidarium.faults;

import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import tepidarium.it.Grower;
import tepidarium.it.ServiceProcess;

/**
 * A service whose supervisor starts it again whenever it has ended, as an init system does. Also
 * looks at its counts, which end with the process: what had come to its end at the last look is
 * added up.
 */
final class Supervised implements AutoCloseable {
  private static final long LOOK_MS = 200;

  private final Supplier<ServiceProcess> starting;
  private final ScheduledExecutorService supervisor = Executors.newSingleThreadScheduledExecutor();
  private volatile ServiceProcess service;
  private volatile Tally before = Tally.NOTHING;
  private volatile Tally last = Tally.NOTHING;
  private final AtomicInteger restarts = new AtomicInteger();
  private volatile boolean held;

  private Supervised(Supplier<ServiceProcess> starting) {
    this.starting = starting;
    service = starting.get();
    var unused =
        supervisor.scheduleWithFixedDelay(this::look, LOOK_MS, LOOK_MS, TimeUnit.MILLISECONDS);
  }

  static Supervised start(Supplier<ServiceProcess> starting) {
    return new Supervised(starting);
  }

  private void look() {
    try {
      if (service.isAlive()) {
        last = Tally.of(service.grower());
      } else if (!held) {
        before = before.plus(last.settled());
        last = Tally.NOTHING;
        service = starting.get();
        restarts.incrementAndGet();
      }
    } catch (RuntimeException | AssertionError e) {
      // It is just ending, or cannot start yet: the next look sees to it.
    }
  }

  ServiceProcess process() {
    return service;
  }

  Grower grower() {
    return service.grower();
  }

  int restarts() {
    return restarts.get();
  }

  /** Ends it without any warning; the supervisor sees to the rest. */
  void kill() {
    service.kill();
  }

  /** Asks it to end, as an init system does; the supervisor sees to the rest. */
  void stop() {
    service.stop();
  }

  /** Ends it without any warning; it is not started again. */
  void end() {
    held = true;
    supervisor.shutdownNow();
    service.kill();
  }

  /** Everything that came in since the first start, once all of it has come to its end. */
  Tally settled() {
    Tally now = Health.settled(this::grower);
    return before.plus(now);
  }

  @Override
  public void close() {
    end();
  }
}
