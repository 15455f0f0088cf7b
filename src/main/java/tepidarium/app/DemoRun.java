package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeoutException;
import tepidarium.app.demo.Demo;

/** Runs the demo from the command line until it is stopped, and prints its progress. */
final class DemoRun {
  private final DemoService demo;
  private final CountDownLatch stopped = new CountDownLatch(1);
  private volatile boolean stopping;

  private DemoRun(DemoService demo) {
    this.demo = demo;
  }

  /** Starts the demo; returns after it has stopped. */
  static int serve(Config config) throws InterruptedException {
    DemoRun run = new DemoRun(DemoService.start(config, Clock.tickMillis(ZoneOffset.UTC)));
    Runtime.getRuntime().addShutdownHook(new Thread(run::stop, "stop"));
    System.out.println("Tepidarium demo: an invented school garden with simulated sensors.");
    System.out.println("Loading four weeks of readings over MQTT.");
    System.out.println(
        "Open http://"
            + Main.browserHost(config.httpHost())
            + ":"
            + run.demo.httpPort()
            + " to see it.");
    run.loadHistory();
    run.stopped.await();
    return 0;
  }

  private void loadHistory() throws InterruptedException {
    try {
      printLoaded(demo.loadHistory());
    } catch (TimeoutException e) {
      throw new IllegalStateException("the demo cannot load its history: " + e.getMessage(), e);
    } catch (RuntimeException e) {
      // The user stopped the demo while it loaded its history; that is not an error.
      if (!stopping) {
        throw e;
      }
    }
  }

  private static void printLoaded(Demo.LoadedHistory loaded) {
    System.out.printf(
        Locale.ROOT,
        "Loaded %,d readings in %.1f s. Live readings follow every %d s.%n",
        loaded.readings(),
        seconds(loaded.took()),
        Demo.LIVE_PERIOD.toSeconds());
    System.out.println("Ctrl-C stops the demo and deletes its data.");
  }

  private static double seconds(Duration time) {
    return time.toMillis() / 1000.0;
  }

  private void stop() {
    stopping = true;
    demo.close();
    stopped.countDown();
  }
}
